/**
 * Ctrl-C: the first asks the command to stop between two pieces of work, by an abort signal; the second, or a command
 * that does not come to an end within a few seconds, ends the process at once. Either way the exit code is 130.
 */

import { exitCodes } from './exit-codes.ts';

/** Longest wait for a command to stop [ms]. */
const patience = 5_000;

/** Starts to listen; the signal is aborted at the first Ctrl-C, and `say` tells the user that it was heard. */
export function interruptionSignal(say: (text: string) => void): {
  signal: AbortSignal;
  release: () => void;
} {
  const controller = new AbortController();
  let timer: NodeJS.Timeout | undefined;
  const onInterrupt = (): void => {
    if (controller.signal.aborted) process.exit(exitCodes.interrupted);
    say('Stopping; Ctrl-C again ends at once.');
    timer = setTimeout(() => process.exit(exitCodes.interrupted), patience);
    timer.unref();
    controller.abort();
  };
  process.on('SIGINT', onInterrupt);
  return {
    signal: controller.signal,
    release: () => {
      process.off('SIGINT', onInterrupt);
      clearTimeout(timer);
    },
  };
}
