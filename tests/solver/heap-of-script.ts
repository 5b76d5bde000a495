/** Runs a script that prints what `heapOfSteps` counts, in a process of its own on the built program. */

import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export interface Heap {
  /** Bytes of heap that a step uses, and that stay after a sweep. */
  readonly used: number;
  readonly kept: number;
}

/**
 * A young generation so large that nothing is swept while the bytes are counted, and code compiled in step and at once for good,
 * the kernel's and its call's too, so that a busy machine counts the same.
 */
const FLAGS = [
  '--expose-gc',
  '--no-concurrent-recompilation',
  '--no-liftoff',
  '--no-wasm-generic-wrapper',
  '--min-semi-space-size=64',
  '--max-semi-space-size=128',
];

export function heapOf(script: URL, ...words: readonly string[]): Heap {
  const printed = execFileSync(process.execPath, [...FLAGS, fileURLToPath(script), ...words], {
    encoding: 'utf8',
  });
  return JSON.parse(printed) as Heap;
}
