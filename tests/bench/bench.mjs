// `npm run bench`: how fast the built program is on this machine. With --json one document, else the same as a table; with
// --quick the two sweeps of the demo and the members of its bands are left out.

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { availableParallelism, cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { hasTwoLanes } from '../../dist/solver/index.js';
import { boardFigures } from './board.mjs';
import { bareDuct, demoEngine, median } from './march-rate.mjs';
import { memberSweepsPerMinute } from './members.mjs';
import { nextSpeedMs } from './next-speed.mjs';
import { pageOpenMs } from './page-open.mjs';
import { leastOfTwoOverOne } from './side-by-side.mjs';

const root = new URL('../../', import.meta.url).pathname;
const program = join(root, 'dist/src/main.js');
const demo = join(root, 'cases/saltmarsh-125/draft-a.yaml');
const SPEED = 10_000;

const CPU_SAYS = new URL('cpu-time.mjs', import.meta.url).href;

/** Runs the program; wall time and the processor's time of all its threads [s]. */
function timed(words) {
  const start = process.hrtime.bigint();
  const { status, stderr, output } = spawnSync(process.execPath, ['--import', CPU_SAYS, program, ...words], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe', 'pipe'],
  });
  return { seconds: Number(process.hrtime.bigint() - start) / 1e9, cpu: Number(output[3]), status, stderr };
}

/** Mean of a column of a sweep's table. */
function columnMean(csv, name) {
  const [heads, ...rows] = csv
    .trim()
    .split('\n')
    .map((line) => line.split(','));
  const column = heads.indexOf(name);
  const values = rows.map((row) => Number(row[column])).filter(Number.isFinite);
  return values.length > 0 ? values.reduce((sum, value) => sum + value, 0) / values.length : null;
}

/** The demo sweep on some threads: wall time, cycles a speed and the opening of its page; null where it failed. */
async function demoSweep(threads) {
  const folder = mkdtempSync(join(tmpdir(), 'echocone-bench-'));
  try {
    const run = timed([
      'sweep',
      demo,
      '--threads',
      String(threads),
      '--out',
      folder,
      '--overwrite',
      '--quiet',
    ]);
    // A speed that would not settle (exit code 4) has been computed like any other.
    if (run.status !== 0 && run.status !== 4) {
      process.stderr.write(`The sweep on ${threads} threads ended with code ${run.status}. ${run.stderr}\n`);
      return unknown;
    }
    const csv = readFileSync(join(folder, 'sweep.csv'), 'utf8');
    return {
      seconds: run.seconds,
      cpu: run.cpu,
      cycles: columnMean(csv, 'cycles'),
      pageMs: await pageOpenMs(join(folder, 'sweep.html')),
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const unknown = { seconds: null, cpu: null, cycles: null, pageMs: null };
const quick = process.argv.includes('--quick');
const engine = await demoEngine(demo, SPEED);
const twoLane = hasTwoLanes()
  ? {
      kernel: bareDuct('conservative', 'two-lane'),
      engine: (await demoEngine(demo, SPEED, 'two-lane')).nsPerCellStep,
    }
  : { kernel: null, engine: null };
const figures = {
  kernel_ns_per_cell_step: bareDuct('conservative'),
  mesh_method_ns_per_cell_step: bareDuct('mesh'),
  engine_ns_per_cell_step: engine.nsPerCellStep,
  two_lane_kernel_ns_per_cell_step: twoLane.kernel,
  two_lane_engine_ns_per_cell_step: twoLane.engine,
  engine_steps_per_cycle: engine.stepsPerCycle,
  engine_cells: engine.cells,
  next_speed_20mm_ms: await nextSpeedMs(demo),
};
const one = quick ? unknown : await demoSweep(1);
const two = quick ? unknown : await demoSweep(2);
const board = quick ? null : await boardFigures({ quick: true });
const answer = {
  schemaVersion: 1,
  kind: 'bench',
  ...figures,
  cycles_per_speed: one.cycles ?? two.cycles,
  demo_sweep_s_1_thread: one.seconds,
  demo_sweep_s_2_threads: two.seconds,
  least_2_threads_over_1: quick ? null : await leastOfTwoOverOne(demo),
  sweep_cpu_s: one.cpu,
  sweep_page_opens_ms: two.pageMs ?? one.pageMs,
  member_sweeps_per_minute: quick ? null : await memberSweepsPerMinute(demo),
  board_first_answer_ms: board?.board_first_answer_ms ?? null,
  help_ms: 1000 * median(Array.from({ length: 5 }, () => timed(['--help']).seconds)),
  machine: { cpu: cpus()[0]?.model ?? 'unknown', cores: availableParallelism(), node: process.version },
};

const rounded = (value) => (typeof value === 'number' ? Number(value.toPrecision(4)) : value);
if (process.argv.includes('--json')) {
  process.stdout.write(`${JSON.stringify(answer, (_, value) => rounded(value), 2)}\n`);
} else {
  const { cpu, cores, node } = answer.machine;
  process.stdout.write(`${cpu}, ${cores} cores, Node ${node}\n`);
  for (const [name, value] of Object.entries(answer)) {
    if (name === 'machine' || name === 'kind' || name === 'schemaVersion') continue;
    process.stdout.write(`${name.padEnd(36)}${value === null ? '-' : rounded(value)}\n`);
  }
}
