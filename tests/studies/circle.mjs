/**
 * The circle of charge, pulse and suction, link by link: more charge makes a stronger pulse, that a deeper suction, that more charge.
 * Which link, softened, takes the steepness out of the steps of torque? Two subjects at steps of 50 rpm, draft A at its upper edge
 * and a pipe with two states within 250 rpm, each with one thing changed at a time within what is plausible, and with several.
 * Told are the steepest step, and the steepest at which the wave's middle moves by less than 5 degrees.
 * `node tests/studies/circle.mjs --cell 10mm`
 */

import { join } from 'node:path';
import { loadCase } from '../../dist/src/case/load.js';
import { runGroup } from '../../dist/src/study/work/run-sweep.js';
import { flag, keep, root } from './keep.mjs';

const cell = flag('--cell', '10mm');
const from50 = (from, to) => Array.from({ length: (to - from) / 50 + 1 }, (_, k) => from + 50 * k);
const subjects = [
  ['draft A', 'cases/saltmarsh-125/draft-a.yaml', from50(10_200, 11_200)],
  ['two states', 'tests/repro/empirical-8200.yaml', from50(7900, 9000)],
];

const bends = [
  '{ at: 30 mm, angle: 70 deg, radius: 90 mm, plane: 180 deg, segments: 5 }',
  '{ at: 230 mm, angle: 65 deg, radius: 120 mm, plane: 200 deg, segments: 5 }',
  '{ at: 640 mm, angle: 45 deg, radius: 150 mm, plane: 180 deg, segments: 4 }',
];
const scale = (port, keys) =>
  Object.entries(keys).map(([key, value]) => `engine.${port}.discharge.${key}=${value}`);
const welded = [`pipe.bends=[${bends.join(', ')}]`, 'pipe.roughness=0.3 mm'];
const links = [
  ['as it stands', []],
  ['the same by finite volumes', ['run.scheme=finite-volume']],
  ['transfers as ducts', ['engine.transfers.passage.as=duct']],
  ['transfers quasi-steady', ['engine.transfers.passage.inertia=false']],
  ['scavenging, mixing volume 0.8', ['engine.scavenging={ twoZone: { mixingVolume: 0.8 } }']],
  ['scavenging, short circuit 0.15', ['engine.scavenging={ twoZone: { shortCircuit: 0.15 } }']],
  ['scavenging, perfect mixing', ['engine.scavenging={ threeWay: { displacement: 0, shortCircuit: 0 } }']],
  ['exhaust discharge, out 15 % less', scale('exhaust', { outFull: 0.64, outCrack: 0.72 })],
  ['exhaust discharge, back 15 % less', scale('exhaust', { inFull: 0.6, inCrack: 0.68 })],
  [
    'transfer discharge 15 % less',
    scale('transfers', { inFull: 0.6, inCrack: 0.68, outFull: 0.55, outCrack: 0.64 }),
  ],
  ['crankcase wall 60 K warmer', ['engine.crankcase.wallTemperature=400 K']],
  ['wall heat of the pipe twice', ['run.wallHeatFactor=2']],
  ['reed discharge a fifth less', ['engine.intake.reed.discharge=0.56']],
  ['petals damped twelve times', ['engine.intake.reed.petals.damping=0.6']],
  ['burn not slowed by residual', ['engine.combustion.residualAtDuration=none']],
  ['gas that does not mix', ['run.mixing=0']],
  ['gas that mixes three times', ['run.mixing=3']],
  ['three bends of 180 degrees', welded.slice(0, 1)],
  ['deposits, roughness 0.3 mm', welded.slice(1)],
  ['bends and deposits', welded],
  [
    'bends, deposits, mixing 2, ducts, short circuit 0.1',
    [
      ...welded,
      'run.mixing=2',
      'engine.transfers.passage.as=duct',
      'engine.scavenging={ twoZone: { shortCircuit: 0.1 } }',
    ],
  ],
];

const round = (value, digits) => Number(value.toFixed(digits));

function stepsOf(rows) {
  return rows.slice(1).map((row, k) => ({
    from_rpm: rows[k].speed_rpm,
    torque_percent: round(100 * (row.torque_nm / rows[k].torque_nm - 1), 1),
    middle_deg: round((row.plugback_centroid_deg ?? 0) - (rows[k].plugback_centroid_deg ?? 0), 1),
    settled: row.settled && rows[k].settled,
  }));
}

const steepest = (steps) =>
  steps.reduce(
    (most, one) => (Math.abs(one.torque_percent) > Math.abs(most?.torque_percent ?? 0) ? one : most),
    null,
  );

// All are read before the first is run.
const read = subjects.map(([, file]) =>
  links.map(([, set]) => loadCase(join(root, file), { set: [`run.cell=${cell}`, ...set] })),
);
const found = subjects.map(([name, , speeds], s) => ({
  case: name,
  links: links.map(([link], k) => {
    const subject = { ...read[s][k], run: { ...read[s][k].run, targetSpeed: null, speeds } };
    const rows = runGroup({ subject, speeds, brief: true }).records.map(({ row }) => row);
    const steps = stepsOf(rows);
    const alone = steps.filter(({ middle_deg }) => Math.abs(middle_deg) < 5);
    const best = rows.reduce((most, row) => (row.torque_nm > most.torque_nm ? row : most));
    const line = {
      link,
      best_torque_nm: round(best.torque_nm, 2),
      at_rpm: best.speed_rpm,
      steepest: steepest(steps),
      steepest_with_the_wave_standing: steepest(alone),
      steps_over_5_percent: steps.filter(({ torque_percent }) => Math.abs(torque_percent) > 5).length,
    };
    process.stderr.write(
      `${name}: ${link} ${JSON.stringify(line.steepest)} ${JSON.stringify(line.steepest_with_the_wave_standing)}\n`,
    );
    return line;
  }),
}));
keep('circle', { cell, found });
