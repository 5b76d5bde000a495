/**
 * Takes everything of a study off the server. Its lenders are let go first: a worker that still looks at a queue writes
 * bookkeeping there again.
 */

import { setTimeout as wait } from 'node:timers/promises';
import { announced, withdraw } from './announcement.ts';
import { resultQueue, type Server, wipe, workQueue } from './server.ts';

/** Lenders look for studies twice a second; one that computes a piece nobody wants any more is not waited for [ms]. */
const PATIENCE = 3_000;
const LOOK = 100;

export async function cleanUp(server: Server, fingerprint: string): Promise<void> {
  await withdraw(server, fingerprint);
  const work = server.queue(workQueue(fingerprint));
  for (let waited = 0; waited < PATIENCE && (await work.getWorkersCount()) > 0; waited += LOOK)
    await wait(LOOK);
  await swept(server, fingerprint);
}

/** What a lender does after a study that has ended meanwhile: its last answer was one that nobody takes. */
export async function leftBehind(server: Server, fingerprint: string): Promise<void> {
  const up = await announced(server);
  if (!up.some((study) => study.fingerprint === fingerprint)) await swept(server, fingerprint);
}

async function swept(server: Server, fingerprint: string): Promise<void> {
  for (const name of [workQueue(fingerprint), resultQueue(fingerprint)]) await wipe(server, name);
}
