/**
 * How far a sweep's rows are from the limit, mesh and settling together: each speed of an example as its sweep gives it, against the mean
 * of the last 24 of 64 cycles on cells of 2.5 mm (`--fine 1.75mm`). What did not settle is left out, and said.
 */

import { loadCase } from '../../dist/src/case/load.js';
import { coarseState } from '../../dist/src/engine/run/run-speed.js';
import { workingBand } from '../../dist/src/findings/working-band.js';
import { runGroup, speedGroups } from '../../dist/src/study/work/run-sweep.js';
import { flag, keep, root } from './keep.mjs';
import { engineFrom, longRun } from './long-run.mjs';

const CYCLES = 64;
const fine = flag('--fine', '2.5mm');
const file = flag('--case', 'saltmarsh-125/draft-a');
const subject = loadCase(`${root}cases/${file}.yaml`);
const limited = loadCase(`${root}cases/${file}.yaml`, { set: [`run.cell=${fine}`] });

const rows = speedGroups(subject).flatMap((group) => runGroup(group).records.map(({ row }) => row));
const { lands } = workingBand(rows);
const results = rows
  .filter(({ settled }) => settled)
  .map((row) => {
    const { speed_rpm: rpm } = row;
    const long = longRun(engineFrom(limited, rpm, coarseState(limited, rpm)), CYCLES);
    const inBand = lands !== null && rpm >= lands.from && rpm <= lands.to;
    const torquePercent = 100 * (row.torque_nm / long.torque - 1);
    const middleDeg = row.plugback_centroid_deg - row.exhaust_opens_deg - long.middle;
    process.stderr.write(`${rpm} rpm: ${torquePercent.toFixed(2)} %, ${middleDeg.toFixed(2)} deg\n`);
    return { rpm, inBand, cycles: row.cycles, torquePercent, middleDeg };
  });
const worst = (of, name) => Math.max(0, ...of.map((one) => Math.abs(one[name])));
const worstOf = (of) => ({ torquePercent: worst(of, 'torquePercent'), middleDeg: worst(of, 'middleDeg') });
keep(`limit-${file.split('/').join('-')}`, {
  cell: `${1000 * subject.run.cell} mm`,
  fine,
  unsettled: rows.filter(({ settled }) => !settled).map(({ speed_rpm: rpm }) => rpm),
  worst: {
    inBand: worstOf(results.filter((one) => one.inBand)),
    beyond: worstOf(results.filter((one) => !one.inBand)),
  },
  results,
});
