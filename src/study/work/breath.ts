/**
 * Long work on the main thread that lets go of it now and then, so that Ctrl-C is heard: a program hears of a signal only
 * between two turns of its event loop.
 */

import { setImmediate } from 'node:timers/promises';

/** Longest time without letting go [ms]. */
const HELD = 50;

/** A function that lets go if it is time to, and ends with the signal's reason once that is aborted. */
export function breather(signal: AbortSignal | undefined): () => Promise<void> {
  let since = performance.now();
  return async () => {
    if (performance.now() - since < HELD) return;
    await setImmediate();
    signal?.throwIfAborted();
    since = performance.now();
  };
}

/** Runs a generator to its end, letting go between its steps; gives what it returns. */
export async function breathing<Result>(
  steps: Generator<unknown, Result>,
  signal: AbortSignal | undefined,
): Promise<Result> {
  const breathe = breather(signal);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
    await breathe();
  }
}
