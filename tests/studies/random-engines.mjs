/**
 * Random plausible engines at three speeds each: how many march, how many settle, whether energy balances, and what those do that
 * do not settle. `--engines 200 --seed 1 --cell 20mm`. Kept in random-engines.json, or where `--keep` names.
 */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { loadCase } from '../../dist/src/case/load.js';
import { buildEngine } from '../../dist/src/engine/build.js';
import { readCycle } from '../../dist/src/engine/read/read-cycle.js';
import { CycleRecorder } from '../../dist/src/engine/read/recorder.js';
import { marchCycle } from '../../dist/src/engine/run/cycle.js';
import { runSpeed } from '../../dist/src/engine/run/run-speed.js';
import { startFrom } from '../../dist/src/engine/run/state.js';
import { randomSource } from '../../dist/src/study/search/random.js';
import { flag, keep } from './keep.mjs';
import { plausibleCase } from './plausible-engine.mjs';

const engines = Number(flag('--engines', '200'));
const seed = Number(flag('--seed', '1'));
const cell = flag('--cell', '20mm').replace(/mm$/, ' mm');
/** Cycles that an unsettled engine is watched for once more, in two halves. */
const WATCHED = 48;
/** Means of the halves further apart than this share have drifted, as in `src/engine/run/settle.ts`. */
const APART = 0.004;

const folder = mkdtempSync(join(tmpdir(), 'random-engines-'));
const mean = (values) => values.reduce((a, b) => a + b, 0) / values.length;
const range = (values) => Math.max(...values) - Math.min(...values);

/** Torque over some more cycles from where a run was given up [N m]. */
function torqueFrom(subject, rpm, state) {
  const engine = buildEngine(subject, rpm, subject.run.cell);
  startFrom(engine, state);
  const recorder = new CycleRecorder(engine);
  return Array.from(
    { length: WATCHED },
    () => readCycle(engine, recorder, marchCycle(engine, recorder)).output.torque,
  );
}

/** What a series does: comes to rest, alternates about one mean, drifts from one to another, or jumps between. */
function behaviour(torque) {
  const half = torque.length / 2;
  const [first, last] = [torque.slice(0, half), torque.slice(half)];
  const whole = Math.max(Math.abs(mean(torque)), 1e-12);
  const spread = range(last) / whole;
  const apart = Math.abs(mean(last) - mean(first)) / whole;
  if (spread < 0.003) return { does: 'comes to rest', spread, apart };
  if (apart < APART) return { does: 'alternates', spread, apart };
  // One large change against the usual ones of neighbouring cycles is a jump.
  const steps = torque.slice(1).map((value, k) => Math.abs(value - torque[k]));
  const usual = [...steps].sort((a, b) => a - b)[Math.floor(steps.length / 2)];
  return {
    does: spread < 4 * apart && Math.max(...steps) < 8 * usual ? 'drifts' : 'wanders or jumps',
    spread,
    apart,
  };
}

const failed = [];
const unsettled = [];
const unbalanced = [];
const cautious = [];
let cycles = 0;
let worstEnergy = 0;
let worstMass = 0;
let refused = 0;
let runs = 0;
const start = performance.now();

/** Keeps what was found of the first engines, so that a long study that is broken off has found something. */
function keepSoFar(done) {
  const kinds = {};
  for (const { does } of unsettled) kinds[does] = (kinds[does] ?? 0) + 1;
  keep(flag('--keep', 'random-engines'), {
    seed,
    cell,
    engines: done,
    refusedAtTheDoor: refused,
    runs,
    failed: failed.length,
    notSettled: unsettled.length,
    notSettledPercent: Number(((100 * unsettled.length) / runs).toFixed(2)),
    withSmallerCourantNumber: cautious.length,
    meanCycles: Number((cycles / runs).toFixed(1)),
    worstEnergyBalanceErrorWhereSettled: worstEnergy,
    worstMassBalanceErrorWhereSettled: worstMass,
    settledWithEnergyBeyond1e6: unbalanced,
    whatTheUnsettledDo: kinds,
    seconds: Math.round((performance.now() - start) / 1000),
    failures: failed,
    unsettled,
  });
}

try {
  for (let index = 0; index < engines; index++) {
    const source = randomSource(seed, index);
    const name = `engine ${index} of seed ${seed}`;
    const path = join(folder, `${index}.yaml`);
    writeFileSync(path, JSON.stringify(plausibleCase(() => source.uniform(), name, cell)));
    let subject;
    try {
      subject = loadCase(path);
    } catch (error) {
      refused++;
      process.stderr.write(`${name} refused: ${error.message}\n`);
      continue;
    }
    for (const rpm of subject.run.speeds) {
      runs++;
      try {
        const { record, state } = runSpeed({ subject, rpm, start: null, brief: true });
        const { row, notes } = record;
        cycles += row.cycles;
        if (notes.some((note) => note.includes('the march failed'))) cautious.push({ index, rpm });
        if (row.settled) {
          worstEnergy = Math.max(worstEnergy, Math.abs(row.energy_balance_error));
          worstMass = Math.max(worstMass, Math.abs(row.mass_balance_error));
          if (!(Math.abs(row.energy_balance_error) <= 1e-6)) unbalanced.push({ index, rpm });
        } else {
          const found = behaviour(torqueFrom(subject, rpm, state));
          unsettled.push({
            index,
            rpm,
            torque: Number(row.torque_nm.toPrecision(4)),
            does: found.does,
            spreadPercent: Number((100 * found.spread).toPrecision(3)),
            meansApartPercent: Number((100 * found.apart).toPrecision(3)),
          });
        }
      } catch (error) {
        failed.push({ index, rpm, why: error.message });
        process.stderr.write(`${name} at ${rpm} rpm: ${error.stack}\n`);
      }
    }
    if (index % 25 === 24 && index + 1 < engines) keepSoFar(index + 1);
  }
} finally {
  rmSync(folder, { recursive: true });
}
keepSoFar(engines);
