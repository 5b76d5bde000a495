/**
 * A pool whose "engine" is a formula, so that a reconciliation takes no time: torque over speed and a wave that hang on a few of the
 * case's inputs. What the smoother finds can then be held against what was put in.
 */

import { openFile } from '../../../src/case/load.ts';
import type { SweepRow } from '../../../src/findings/row.ts';
import type { Case } from '../../../src/model/case.ts';
import type { Measured } from '../../../src/model/measured.ts';
import { planReconcile, type ReconcilePlan } from '../../../src/study/reconcile/plan.ts';
import type { Bench } from '../../../src/study/reconcile/run-members.ts';
import type { ObservedJob, ObservedSpeed } from '../../../src/study/work/observed.ts';
import type { Pool } from '../../../src/study/work/pool.ts';
import { CASES } from '../../case/files.ts';

export const SPEEDS = [8000, 9000, 9750, 10_500, 11_250, 12_000];
const opened = openFile(`${CASES}saltmarsh-125/draft-a.yaml`);

/** Torque falls with friction and an early middle; the wall's heat moves the speed at which it is highest. */
export function torqueOf({ engine, pipe }: Pick<Case, 'engine' | 'pipe'>, rpm: number): number {
  const friction = engine.friction.constant / 1e5;
  const hot = pipe.wall.by === 'given' ? (pipe.wall.at[0]!.temperature - 700) / 100 : 0;
  const best = 10_300 + 300 * hot;
  return 22 * engine.combustion.completeness * Math.exp(-(((rpm - best) / 3500) ** 2)) - 8 * friction;
}

export function turnOf({ pipe }: Pick<Case, 'pipe'>): readonly number[] {
  const hot = pipe.wall.by === 'given' ? (pipe.wall.at[0]!.temperature - 700) / 100 : 0;
  return Array.from({ length: 180 }, (_, k) =>
    Math.round(1.2e5 + 4e4 * Math.exp(-(((2 * k - 240 + 6 * hot) / 25) ** 2))),
  );
}

function observedAt({ subject, speeds }: ObservedJob): readonly ObservedSpeed[] {
  return speeds.map(({ rpm, pressures, gas, walls }) => ({
    row: { speed_rpm: rpm, settled: true, torque_nm: torqueOf(subject, rpm) } as SweepRow,
    reason: '',
    pressures: pressures.map(() => turnOf(subject)),
    gas: gas.map(() => 900),
    walls: walls.map(() => 700),
    state: null,
  }));
}

/** @param order in which jobs are handed on, as threads of any number would */
export function standIn(order: 'first' | 'last' = 'first', mostRuns = Number.POSITIVE_INFINITY) {
  let runs = 0;
  async function* finished(jobs: Iterable<{ input: ObservedJob }> | AsyncIterable<{ input: ObservedJob }>) {
    const all: {
      index: number;
      job: { input: ObservedJob };
      outcome: { ok: true; value: readonly ObservedSpeed[] };
    }[] = [];
    for await (const job of jobs) {
      runs += 1;
      if (runs > mostRuns) throw new DOMException('broken off', 'AbortError');
      const done = { index: all.length, job, outcome: { ok: true as const, value: observedAt(job.input) } };
      if (order === 'first') yield done;
      all.push(done);
    }
    if (order === 'last') yield* all.toReversed();
  }
  const pool = { threads: 1, asFinished: finished, inOrder: finished } as unknown as Pool;
  return { pool, runs: () => runs };
}

export function benchOf(pool: Pool, done = new Map<string, readonly ObservedSpeed[]>()): Bench {
  return { pool, kept: { journal: { append: () => true }, done } };
}

export function planOf(files: readonly Measured[], count = 64): ReconcilePlan {
  return planReconcile({ opened, set: [], files, count, program: 'test' });
}

/** Measurements of torques, and of a trace where it is given. */
export function measuredOf(torques: readonly number[], more: Partial<Measured> = {}): Measured {
  const points = torques.map((torque, k) => ({
    rpm: SPEEDS[k]!,
    torque,
    error: 0.02 * torque,
    file: 'dyno.csv',
    line: k + 2,
  }));
  return {
    name: 'test',
    note: '',
    engine: '',
    ambient: null,
    dyno: { points, factor: { kind: 'known', value: 1 }, correctedTo: 'none', correction: 1 },
    traces: [],
    gasTemperatures: [],
    walls: [],
    warnings: [],
    ...more,
  };
}
