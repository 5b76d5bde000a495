/**
 * Writes the invented measurements of cases/saltmarsh-125/measured: a hidden engine is the club's with its uncertain inputs drawn at
 * random within their ranges; what it gives with draft A on 10 mm cells gets noise of 2 % on torque and 0.04 bar on pressure, a
 * chain that loses 6 %, and an encoder that shows 4 degrees too little. `node tests/studies/hidden-engine.mjs`
 */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { caseOf, openFile } from '../../dist/src/case/load.js';
import { memberScores } from '../../dist/src/study/ensemble/scores.js';
import { uncertainInputs } from '../../dist/src/study/ensemble/uncertain-inputs.js';
import { overridesAt } from '../../dist/src/study/reconcile/reconcile.js';
import { randomSource } from '../../dist/src/study/search/random.js';
import { runObserved } from '../../dist/src/study/work/observed.js';
import { withRun } from '../../dist/src/study/work/run-settings.js';
import { root } from './keep.mjs';

const SEED = 125;
const SPEEDS = Array.from({ length: 11 }, (_, k) => 8000 + 500 * k);
const TRACE = 10_500;
const [FACTOR, LITTLE] = [0.94, 4];

const opened = openFile(join(root, 'cases/saltmarsh-125/draft-a.yaml'));
const air = ['engine.ambient.pressure=1003 mbar', 'engine.ambient.temperature=294.15 K'];
const inputs = uncertainInputs(opened, air);
const [scores] = memberScores(inputs, 1, SEED);
const subject = withRun(caseOf(opened, [...air, ...overridesAt(inputs, scores)]), { cell: 10e-3 });
const speeds = SPEEDS.map((rpm) => ({
  rpm,
  pressures: rpm === TRACE ? [0.15] : [],
  gas: rpm === TRACE ? [0.15] : [],
  walls: [0.05],
}));
const shown = runObserved({ subject, speeds, starts: SPEEDS.map(() => null), mostCycles: 60 });
const random = randomSource(SEED, 1);
const at = (name) => join(root, 'cases/saltmarsh-125/measured', name);

const curve = shown.map(({ row }, k) => {
  const torque = FACTOR * row.torque_nm * (1 + 0.02 * random.normal());
  const power = (torque * SPEEDS[k] * Math.PI) / 30_000;
  return `${SPEEDS[k]};${power.toFixed(2).replace('.', ',')}`;
});
writeFileSync(at('dyno.csv'), `Speed (1/min);Power (kW)\n${curve.join('\n')}\n`);

const watched = shown[SPEEDS.indexOf(TRACE)];
const [turn] = watched.pressures;
const trace = turn.map((_, k) => {
  const value = turn[(k + LITTLE / 2) % turn.length] + 4000 * random.normal();
  return `${2 * k},${(value / 1e5).toFixed(3)}`;
});
writeFileSync(at('p10500.csv'), `Angle,Pressure\ndeg,bar\n${trace.join('\n')}\n`);
process.stdout.write(
  `gas ${(watched.gas[0] - 273.15 + 15 * random.normal()).toFixed(0)} degC, wall ${(watched.walls[0] - 273.15 + 15 * random.normal()).toFixed(0)} degC\n` +
    `hidden engine:\n${overridesAt(inputs, scores).join('\n')}\n`,
);
