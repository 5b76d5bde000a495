/** Readers of the output that go away (`| head`), or cannot take it. */

import type { Output } from './terminal.ts';

/** Lets a vanished reader of stdout or stderr pass; `fail` hears of any other failure to write, such as a full disk. */
export function surviveClosedPipes(outputs: readonly Output[], fail: (error: Error) => void): void {
  for (const output of outputs) {
    output.on?.('error', (error) => {
      if (error.code !== 'EPIPE') fail(error);
    });
  }
}
