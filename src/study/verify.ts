/** All problems on a pool of threads, in their order. */

import { type Check, failedCheck } from '../verify/check.ts';
import { problems } from '../verify/problem-list.ts';
import type { Comparison } from '../verify/rig/problem.ts';
import type { Pool } from './work/pool.ts';

export interface VerifyResult {
  readonly schemaVersion: 1;
  readonly kind: 'verify';
  readonly program: string;
  readonly passed: number;
  readonly missed: readonly string[];
  readonly checks: readonly Omit<Check, 'comparison'>[];
  readonly overlays: readonly Comparison[];
  readonly seconds: number;
}

export interface VerifyWatch {
  readonly program: string;
  readonly signal: AbortSignal;
  /** So many problems are done, the last of them this one. */
  readonly done: (count: number, name: string) => void;
}

export const problemCount = problems.length;

export async function runVerify(pool: Pool, watch: VerifyWatch): Promise<VerifyResult> {
  const started = performance.now();
  const jobs = problems.map((_, index) => ({ kind: 'verify', input: { index } }) as const);
  const checks: Check[] = [];
  for await (const { index, outcome } of pool.inOrder(jobs, watch.signal)) {
    const problem = problems[index]!;
    checks.push(outcome.ok ? outcome.value : failedCheck(problem, outcome.failure.message));
    watch.done(checks.length, problem.name);
  }
  const missed = checks.filter((check) => !check.pass).map((check) => check.name);
  return {
    schemaVersion: 1,
    kind: 'verify',
    program: watch.program,
    passed: checks.length - missed.length,
    missed,
    checks: checks.map(({ comparison: _, ...check }) => check),
    overlays: checks.flatMap((check) => check.comparison ?? []),
    seconds: (performance.now() - started) / 1000,
  };
}
