/**
 * Random plausible engines at three speeds each: how many march, how many settle, whether energy balances, and what those do that
 * do not settle. `--engines 200 --seed 1 --cell 20mm`; `npm run study:engines` takes 2000. Every engine's runs are kept in
 * the folder of the study (`--out`), so that it can be stopped and gone on with; `--until 300` stops it after so many seconds,
 * `--part 1/3` does a third. The
 * figures of what is done so far are kept in random-engines.json, or where `--keep` names.
 */

import {
  appendFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
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
import { flag, keep, root } from './keep.mjs';
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

/** What comes of an engine at a speed. */
function ran(subject, rpm) {
  try {
    const { record, state } = runSpeed({ subject, rpm, start: null, brief: true });
    const { row, notes } = record;
    const found = {
      rpm,
      cycles: row.cycles,
      settled: row.settled,
      cautious: notes.some((note) => note.includes('the march failed')),
      alternates: notes.some((note) => note.startsWith('The engine alternates')),
      varies: notes.some((note) => note.startsWith('Cycles go on varying')),
      energy: Math.abs(row.energy_balance_error),
      mass: Math.abs(row.mass_balance_error),
    };
    if (row.settled) return found;
    const { does, spread, apart } = behaviour(torqueFrom(subject, rpm, state));
    return {
      ...found,
      torque: Number(row.torque_nm.toPrecision(4)),
      does,
      spreadPercent: Number((100 * spread).toPrecision(3)),
      meansApartPercent: Number((100 * apart).toPrecision(3)),
    };
  } catch (error) {
    process.stderr.write(`${subject.name} at ${rpm} rpm: ${error.stack}\n`);
    return { rpm, failed: error.message };
  }
}

/** Runs one engine at its speeds; null: it was refused at the door. */
function runsOf(index) {
  const source = randomSource(seed, index);
  const name = `engine ${index} of seed ${seed}`;
  const path = join(folder, `${index}.yaml`);
  writeFileSync(path, JSON.stringify(plausibleCase(() => source.uniform(), name, cell)));
  let subject;
  try {
    subject = loadCase(path);
  } catch (error) {
    process.stderr.write(`${name} refused: ${error.message}\n`);
    return null;
  }
  return subject.run.speeds.map((rpm) => ran(subject, rpm));
}

const work = join(root, flag('--out', 'runs/studies-engines'));
mkdirSync(work, { recursive: true });
/** Which share of the engines this process does: every third from the second on is 1/3. */
const [part, parts] = flag('--part', '0/1').split('/').map(Number);
const study = `done-${seed}-${cell.replace(' ', '')}`;
const book = join(work, `${study}-${part}-of-${parts}.jsonl`);
const read = (path) =>
  readFileSync(path, 'utf8')
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line));
const until = performance.now() + 1000 * Number(flag('--until', 'Infinity'));

try {
  const first = existsSync(book) ? read(book).length : 0;
  for (let k = first; part + parts * k < engines && performance.now() < until; k++) {
    const start = performance.now();
    const index = part + parts * k;
    const one = { index, runs: runsOf(index), seconds: (performance.now() - start) / 1000 };
    appendFileSync(book, `${JSON.stringify(one)}\n`);
  }
} finally {
  rmSync(folder, { recursive: true });
}
const done = readdirSync(work)
  .filter((name) => name.startsWith(`${study}-`))
  .flatMap((name) => read(join(work, name)))
  .sort((a, b) => a.index - b.index);

const runs = done.flatMap(({ index, runs }) => (runs ?? []).map((run) => ({ index, ...run })));
const some = (fits) => runs.filter(fits);
const percent = (part) => Number(((100 * part.length) / runs.length).toFixed(2));
const [failed, settled] = [some((one) => one.failed !== undefined), some((one) => one.settled === true)];
const unsettled = some((one) => one.settled === false);
/** What the unsettled do, and which they are, "index rpm". */
const kinds = {};
for (const { does, index, rpm } of unsettled) kinds[does] = [...(kinds[does] ?? []), `${index} ${rpm}`];
keep(flag('--keep', 'random-engines'), {
  seed,
  cell,
  engines: done.length,
  wanted: engines,
  refusedAtTheDoor: done.filter((one) => one.runs === null).length,
  runs: runs.length,
  failed: failed.length,
  notSettled: unsettled.length,
  notSettledPercent: percent(unsettled),
  alternatingPercent: percent(some((one) => one.alternates)),
  varyingAboutASteadyMeanPercent: percent(some((one) => one.varies)),
  withSmallerCourantNumber: some((one) => one.cautious).length,
  meanCycles: Number(mean(runs.map((one) => one.cycles ?? 0)).toFixed(1)),
  worstEnergyBalanceErrorWhereSettled: Math.max(...settled.map((one) => one.energy)),
  worstMassBalanceErrorWhereSettled: Math.max(...settled.map((one) => one.mass)),
  settledWithEnergyBeyond1e6: settled.filter((one) => !(one.energy <= 1e-6)),
  whatTheUnsettledDo: Object.fromEntries(Object.entries(kinds).map(([does, which]) => [does, which.length])),
  seconds: Math.round(done.reduce((sum, one) => sum + one.seconds, 0)),
  failures: failed,
  unsettled: Object.fromEntries(Object.entries(kinds).map(([does, which]) => [does, which.join(', ')])),
});
