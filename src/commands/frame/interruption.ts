/**
 * Ctrl-C, and SIGTERM, by which a system asks a program to end: the first asks the command to stop between two pieces of
 * work, by an abort signal; the second, or a command that does not come to an end within a second, ends the process at
 * once. Either way the exit code is 130. Work that others wait for may be finished first, where the verb says so; then
 * only the second ends at once.
 */

import { exitCodes } from './exit-codes.ts';

/** Longest wait for a command to stop [ms]. */
const PATIENCE = 700;

const SIGNALS = ['SIGINT', 'SIGTERM'] as const;

/**
 * Starts to listen; the signal is aborted at the first Ctrl-C, and `say` tells the user that it was heard. `last` is said of a
 * command that is ended because it did not stop in time.
 */
export function interruptionSignal(
  say: (text: string) => void,
  { finishesFirst = false, last = 'Interrupted.' } = {},
): { signal: AbortSignal; release: () => void } {
  const controller = new AbortController();
  let timer: NodeJS.Timeout | undefined;
  const endAtOnce = (): void => {
    say(last);
    process.exit(exitCodes.interrupted);
  };
  const onInterrupt = (): void => {
    if (controller.signal.aborted) process.exit(exitCodes.interrupted);
    say('Stopping; Ctrl-C again ends at once.');
    if (!finishesFirst) timer = setTimeout(endAtOnce, PATIENCE);
    timer?.unref();
    controller.abort();
  };
  for (const name of SIGNALS) process.on(name, onInterrupt);
  return {
    signal: controller.signal,
    release: () => {
      for (const name of SIGNALS) process.off(name, onInterrupt);
      clearTimeout(timer);
    },
  };
}
