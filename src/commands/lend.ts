/** `echocone lend`: computes drafts of others' studies, from a queue. */

import { addressOf } from '../study/over/address.ts';
import { lend } from '../study/over/lender.ts';
import { openServer } from '../study/over/server.ts';
import { openPool } from '../study/work/pool.ts';
import type { ExitCode } from './frame/exit-codes.ts';
import { plainText } from './frame/plain-text.ts';
import type { Invocation } from './frame/verb.ts';

export async function run({ flags, terminal, signal, program }: Invocation): Promise<ExitCode | undefined> {
  const address = addressOf(flags.over ?? '', process.env);
  const server = await openServer(address, terminal.warning);
  const pool = openPool(flags.threads);
  const threads = flags.threads === 1 ? '1 thread' : `${flags.threads} threads`;
  terminal.message(`Lending ${threads} to studies on ${address.shown}; Ctrl-C ends after what is under way.`);
  let shown = 0;
  const working = (pieces: readonly string[], done: number): void => {
    // Now and then is enough for someone who looks.
    if (performance.now() - shown < 1_000) return;
    shown = performance.now();
    const at = pieces.length === 0 ? 'nothing' : pieces.join(', ');
    terminal.message(plainText(`Done ${done}; working on ${at}.`));
  };
  try {
    await lend({ server, pool, program, signal, say: (text) => terminal.message(plainText(text)), working });
  } finally {
    await server.close();
    await pool.close();
  }
  return undefined;
}
