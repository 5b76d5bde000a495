/** A pool whose threads run jobs made for tests. */

import { openPool } from '../../../dist/src/study/work/pool.js';
import type { Outcome } from '../../../src/study/work/outcome.ts';

export interface EchoJob {
  readonly kind: 'echo-test';
  readonly input: {
    readonly value: number;
    /** Rounds of arithmetic to do first. */
    readonly rounds?: number;
    /** Fail with this message and exit code 4. */
    readonly fail?: string;
    /** A fault to have, and a file that tells that it was had. */
    readonly how?: 'exit' | 'defect' | 'memory';
    readonly once?: string;
  };
}

type Jobs = Iterable<EchoJob> | AsyncIterable<EchoJob>;
type Value = { readonly value: number; readonly check: number };

export interface EchoPool {
  one(job: EchoJob, signal?: AbortSignal): Promise<Outcome<Value>>;
  asFinished(jobs: Jobs, signal?: AbortSignal): AsyncGenerator<Ended, void>;
  inOrder(jobs: Jobs, signal?: AbortSignal): AsyncGenerator<Ended, void>;
  close(): Promise<void>;
}

interface Ended {
  readonly index: number;
  readonly job: EchoJob;
  readonly outcome: Outcome<Value>;
}

export const echoThread = new URL('echo-thread.cjs', import.meta.url);

export function openEchoPool(threads: number): EchoPool {
  return openPool(threads, echoThread) as unknown as EchoPool;
}
