/** Takes a study off a server and says so. */

import { type Hire, hire } from '../../study/over/hired.ts';
import { type ExitCode, exitCodes, UsageError } from '../frame/exit-codes.ts';
import type { Terminal } from '../frame/terminal.ts';

/** @throws UsageError where no server is named */
export async function cancelled(hiring: Hire | null, terminal: Terminal): Promise<ExitCode> {
  if (hiring === null) throw new UsageError('--cancel goes with --over: it clears a server.');
  const hired = await hire(hiring);
  try {
    await hired.clean();
  } finally {
    await hired.close();
  }
  terminal.message(`Everything of this study is off ${hired.shown}. Its journal, where it has one, stays.`);
  return exitCodes.done;
}
