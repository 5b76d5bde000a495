/**
 * The landing curve at steps of 50 rpm on all engines of the studies, 20 mm cells, each speed from its neighbour's settled
 * fields: where the middle of the wave steps by more than 6 degrees from one speed to the next, and whether the wave itself does.
 *
 * The wave is the returning pressure at the port above the surroundings, smoothed by a triangle of 15 degrees half-width. It has
 * a step where, once the two are shifted onto each other as well as up to 6 degrees allow, they still differ by more than a tenth:
 *   d = min over the shift of sum |s1 - s2| / sum (s1 + s2), over the angles from transfer opening to half a turn after it.
 * That engine stands in another state, and its landing may step. Where the wave has no step a step of the middle is a fault
 * of the reading. Speeds that did not settle, or whose cycles differ, have no one wave and are counted apart.
 *
 * `--only NAME` takes one engine; what is done is kept, `--fresh` does it again.
 */

import { existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { caseOf, openFile } from '../../dist/src/case/load.js';
import { runSpeed } from '../../dist/src/engine/run/run-speed.js';
import { withRun } from '../../dist/src/study/work/run-settings.js';
import { subjects } from './engines/subjects.mjs';
import { flag, folderOf, keep, readJson } from './keep.mjs';

const STEP_RPM = 50;
const MOST_DEG = 6;
const HALF_WIDTH_DEG = 15;
const SAME = 0.1;
/** Spread of the peak from cycle to cycle up to which a speed has one wave [deg]. */
const ONE_WAVE = 3;
const cell = Number.parseFloat(flag('--cell', '20mm')) / 1000;

function smoothed({ traces, row }, ambient) {
  const { angleDeg, returningPressure } = traces;
  const n = angleDeg.length - 1;
  const step = 360 / n;
  const half = Math.round(HALF_WIDTH_DEG / step);
  const first = Math.round((row.transfers_open_deg - row.exhaust_opens_deg) / step);
  const above = Array.from({ length: n }, (_, k) => Math.max(0, returningPressure[k] - ambient));
  return Array.from({ length: Math.round(180 / step) }, (_, k) => {
    let sum = 0;
    for (let j = 1 - half; j < half; j++) sum += (half - Math.abs(j)) * above[(first + k + j + 2 * n) % n];
    return sum / half ** 2;
  });
}

/** How far two waves differ that are shifted onto each other, 0 to 1. */
function difference(one, other, stepDeg) {
  const most = Math.round(MOST_DEG / stepDeg);
  let least = 1;
  for (let shift = -most; shift <= most; shift++) {
    let apart = 0;
    let both = 0;
    for (let k = most; k < one.length - most; k++) {
      apart += Math.abs(one[k] - other[k + shift]);
      both += one[k] + other[k + shift];
    }
    least = Math.min(least, both > 0 ? apart / both : 0);
  }
  return least;
}

function studied({ name, file }) {
  const subject = withRun(caseOf(openFile(file), []), { cell });
  const { speeds } = subject.run;
  const ambient = subject.engine.ambient.pressure;
  const found = [];
  let [start, before, apart, steps] = [null, null, 0, 0];
  for (let rpm = speeds[0]; rpm <= speeds.at(-1); rpm += STEP_RPM) {
    const { record, state } = runSpeed({ subject, rpm, start });
    const { row } = record;
    start = row.settled ? state : null;
    const isOne =
      row.settled && (row.spread_plugback_deg ?? 0) <= ONE_WAVE && row.plugback_centroid_deg !== null;
    const here = isOne
      ? { row, wave: smoothed(record, ambient), stepDeg: 360 / (record.traces.angleDeg.length - 1) }
      : null;
    if (!isOne) apart += 1;
    if (here !== null && before !== null) {
      steps += 1;
      const by = row.plugback_centroid_deg - before.row.plugback_centroid_deg;
      if (Math.abs(by) > MOST_DEG) {
        const d = difference(before.wave, here.wave, here.stepDeg);
        const torque = [before.row.torque_nm, row.torque_nm].map((one) => Number(one.toFixed(2)));
        found.push({
          rpm,
          middleBy: Number(by.toFixed(1)),
          waveDiffers: Number(d.toFixed(3)),
          torque,
          fault: d <= SAME,
        });
      }
    }
    before = here;
  }
  return { name, steps, notOneWave: apart, above: found, faults: found.filter(({ fault }) => fault).length };
}

const kept = (name) => join(folderOf('landing'), `${name}.json`);
mkdirSync(folderOf('landing'), { recursive: true });
for (const subject of subjects(flag('--only', null))) {
  const file = kept(subject.name);
  if (process.argv.includes('--fresh')) rmSync(file, { force: true });
  if (!existsSync(file)) writeFileSync(file, JSON.stringify(studied(subject)));
}
const engines = subjects().flatMap(({ name }) => (existsSync(kept(name)) ? [readJson(kept(name))] : []));
keep('landing-steps', {
  cell: `${1000 * cell} mm`,
  faults: engines.reduce((sum, one) => sum + one.faults, 0),
  engines,
});
