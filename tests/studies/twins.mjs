/**
 * Twins: engines whose uncertain inputs are drawn at random within their ranges stand for real ones. Each gives, with draft A, a
 * dynamometer's curve and one pressure trace, with noise; the reconciliation gets these two files and the case as it
 * stands. Then the same hidden engine runs with draft B, of which nothing was measured, and is held against what the members
 * say of it before and after. Wanted: the mean error of draft B's torque at least halved on average; bands of 5 to 95 % that
 * hold the truth at 80 to 97 % of speeds, before and after; the middle of the plug-back within 1.5 degrees on average after.
 *
 * Both sides are computed on the same cells, so that what is found is what the data tell and not what a mesh errs by. One
 * engine after another is kept: `--engines 20`, `--only 3` does one alone, `--fresh` does it again; `--members 64`.
 */

import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { caseOf, openFile } from '../../dist/src/case/load.js';
import { loadMeasured } from '../../dist/src/case/measured/measured-load.js';
import { percentilesOf } from '../../dist/src/findings/percentile.js';
import { memberScores } from '../../dist/src/study/ensemble/scores.js';
import { uncertainInputs } from '../../dist/src/study/ensemble/uncertain-inputs.js';
import { planReconcile } from '../../dist/src/study/reconcile/plan.js';
import { overridesAt, reconcile } from '../../dist/src/study/reconcile/reconcile.js';
import { randomSource } from '../../dist/src/study/search/random.js';
import { openPool } from '../../dist/src/study/work/pool.js';
import { withRun } from '../../dist/src/study/work/run-settings.js';
import { flag, folderOf, keep, readJson, root } from './keep.mjs';

const CELL = 20e-3;
const SPEEDS = [8000, 9000, 9750, 10_500, 11_250, 12_000, 13_000];
const TRACE = { rpm: 10_500, at: 0.3 };
/** Noise, as standard deviations: of torque a share, of pressure [Pa]. What the files say of it is the same. */
const NOISE = { torque: 0.02, pressure: 5000 };
const engines = Number(flag('--engines', '20'));
const members = Number(flag('--members', '64'));
const only = flag('--only', null);
const fresh = process.argv.includes('--fresh');

const [draftA, draftB] = ['a', 'b'].map((one) =>
  openFile(join(root, `cases/saltmarsh-125/draft-${one}.yaml`)),
);
const inputs = uncertainInputs(draftA, []);
const pool = openPool(Number(flag('--threads', '2')));
const folder = folderOf(`twins-${members}`);
mkdirSync(folder, { recursive: true });

/** A hidden engine: overrides drawn at random, within the ranges and with their correlations. */
function hidden(engine) {
  const [scores] = memberScores(inputs, 1, 1000 + 7 * engine);
  return overridesAt(inputs, scores);
}

/** What engines show at the study's speeds, each from given fields or cold; null where one fails. */
async function shown(opened, sets, states) {
  const watched = SPEEDS.map((rpm) => ({ rpm, pressures: [TRACE.at], gas: [], walls: [] }));
  const jobs = sets.map((set) => ({
    kind: 'observed',
    input: {
      subject: withRun(caseOf(opened, set), { cell: CELL }),
      speeds: watched,
      starts: states,
      mostCycles: 40,
    },
  }));
  const found = [];
  for await (const { outcome } of pool.inOrder(jobs)) {
    if (!outcome.ok) throw new Error(outcome.failure.message);
    found.push(outcome.value);
  }
  return found;
}

const torques = (speeds) => speeds.map(({ row }) => row?.torque_nm ?? null);
const middles = (speeds) => speeds.map(({ row }) => row?.plugback_centroid_deg ?? null);

/** Files as a builder would have them of the hidden engine. */
function measured(engine, speeds) {
  const at = join(folder, `engine-${engine}`);
  mkdirSync(at, { recursive: true });
  const random = randomSource(engine, 3);
  const curve = speeds.map(
    ({ row }, k) => `${SPEEDS[k]};${(row.torque_nm * (1 + NOISE.torque * random.normal())).toFixed(3)}`,
  );
  writeFileSync(join(at, 'dyno.csv'), `rpm;Nm\n${curve.join('\n')}\n`);
  const [turn] = speeds[SPEEDS.indexOf(TRACE.rpm)].pressures;
  const trace = turn.map(
    (value, k) => `${2 * k};${((value + NOISE.pressure * random.normal()) / 1e5).toFixed(4)}`,
  );
  writeFileSync(join(at, 'trace.csv'), `deg;bar\n${trace.join('\n')}\n`);
  const file = join(at, 'measured.yaml');
  writeFileSync(
    file,
    `kind: measured\ndyno: { file: dyno.csv, speed: rpm [rpm], torque: Nm [N m], error: ${100 * NOISE.torque} % }\n` +
      `trace:\n  - { file: trace.csv, at: ${1000 * TRACE.at} mm, speed: ${TRACE.rpm} rpm, angle: deg [deg], pressure: bar [bar], error: ${NOISE.pressure / 1e5} bar }\n`,
  );
  return loadMeasured(file);
}

const mean = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;
const columnsOf = (rows) => SPEEDS.map((_, k) => percentilesOf(rows.map((row) => row[k])));
/** Mean distance of the middle of the members from the truth, and at how many speeds their band holds it. */
function against(truth, rows) {
  const columns = columnsOf(rows);
  const known = columns.flatMap((one, k) =>
    truth[k] === null || one.p50 === null ? [] : [{ ...one, truth: truth[k] }],
  );
  return {
    error: mean(known.map((one) => Math.abs(one.p50 - one.truth))),
    width: mean(known.map((one) => one.p95 - one.p05)),
    held: known.filter((one) => one.truth >= one.p05 && one.truth <= one.p95).length,
    of: known.length,
  };
}

async function twin(engine) {
  const set = hidden(engine);
  const cold = SPEEDS.map(() => null);
  const [truthA, truthB] = [(await shown(draftA, [set], cold))[0], (await shown(draftB, [set], cold))[0]];
  const plan = planReconcile({
    opened: draftA,
    set: [],
    files: [measured(engine, truthA)],
    count: members,
    cell: CELL,
    program: 'twins',
  });
  const kept = { journal: { append() {} }, done: new Map() };
  const started = process.cpuUsage();
  const found = await reconcile(plan, { pool, kept });
  const setsOf = ({ z }) => z.map((scores) => overridesAt(inputs, scores));
  const [baseB] = await shown(draftB, [[]], cold);
  const fields = baseB.map(({ state }) => state);
  const before = await shown(draftB, setsOf(found.before), fields);
  const after = await shown(draftB, setsOf(found.after), fields);
  const own = (stage) => stage.observed.map(torques);
  const asItIs = torques(baseB).map((value, k) => Math.abs(value - torques(truthB)[k]));
  const ownMiddles = (stage) => stage.observed.map(middles);
  return {
    engine,
    cpu_s: Math.round((process.cpuUsage(started).user + process.cpuUsage(started).system) / 1e6),
    lost: found.lost,
    scales: found.scales,
    stretched: Number(found.stretched.toFixed(3)),
    other_pipe_torque: {
      as_it_is: mean(asItIs),
      before: against(torques(truthB), before.map(torques)),
      after: against(torques(truthB), after.map(torques)),
    },
    other_pipe_middle: {
      before: against(middles(truthB), before.map(middles)),
      after: against(middles(truthB), after.map(middles)),
    },
    own_torque: {
      before: against(torques(truthA), own(found.before)),
      after: against(torques(truthA), own(found.after)),
    },
    own_middle: {
      before: against(middles(truthA), ownMiddles(found.before)),
      after: against(middles(truthA), ownMiddles(found.after)),
    },
  };
}

function summary(twins) {
  const all = (read) => mean(twins.map(read));
  const held = (read) => {
    const parts = twins.map(read);
    return Number(
      (
        (100 * parts.reduce((sum, one) => sum + one.held, 0)) /
        parts.reduce((sum, one) => sum + one.of, 0)
      ).toFixed(1),
    );
  };
  const round = (value) => Number(value.toFixed(3));
  const [asItIs, before, after] = [
    all((one) => one.other_pipe_torque.as_it_is),
    all((one) => one.other_pipe_torque.before.error),
    all((one) => one.other_pipe_torque.after.error),
  ];
  return {
    engines: twins.length,
    members,
    other_pipe_torque_error_nm: { as_it_is: round(asItIs), before: round(before), after: round(after) },
    ratio_to_as_it_is: round(after / asItIs),
    ratio: round(after / before),
    ratio_engine_by_engine: round(
      all((one) => one.other_pipe_torque.after.error / one.other_pipe_torque.as_it_is),
    ),
    bands_hold_percent: {
      other_pipe_before: held((one) => one.other_pipe_torque.before),
      other_pipe_after: held((one) => one.other_pipe_torque.after),
      own_before: held((one) => one.own_torque.before),
      own_after: held((one) => one.own_torque.after),
      middle_other_pipe_after: held((one) => one.other_pipe_middle.after),
    },
    middle_error_deg: {
      other_pipe_before: round(all((one) => one.other_pipe_middle.before.error)),
      other_pipe_after: round(all((one) => one.other_pipe_middle.after.error)),
      own_after: round(all((one) => one.own_middle.after.error)),
    },
  };
}

const wanted = only === null ? Array.from({ length: engines }, (_, k) => k + 1) : [Number(only)];
const twins = [];
for (const engine of wanted) {
  const file = join(folder, `twin-${engine}.json`);
  if (fresh || !existsSync(file)) writeFileSync(file, JSON.stringify(await twin(engine), null, 2));
  twins.push(readJson(file));
  process.stderr.write(`${JSON.stringify(summary(twins))}\n`);
}
await pool.close();
if (only === null) keep('twins', { cell: '20 mm', ...summary(twins), twins });
