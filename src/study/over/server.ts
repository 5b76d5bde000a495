/**
 * The queue's server. The queue is BullMQ on Redis or a compatible server; neither is loaded, nor need be installed, before
 * an address is given. Three queues: pieces of a study's work, their results, and the studies that want lenders.
 *
 * A server that goes away is waited for, with a word; commands are held back by the client until it is there again.
 */

import type { Queue, Worker, WorkerOptions } from 'bullmq';
import { printable } from '../../case/text/printable.ts';
import type { Address } from './address.ts';

/** Keys of the server that are ours begin so. */
const PREFIX = 'echocone';
/** Longest wait for the first word of a server [ms]. */
const PATIENCE = 8_000;

export interface Server {
  queue(name: string): Queue;
  worker(
    name: string,
    process: (data: unknown, id: string) => Promise<void>,
    options: Omit<WorkerOptions, 'connection'>,
  ): Worker;
  /** Says that the server has answered. */
  answered(): void;
  close(): Promise<void>;
}

/** Queues of a study, named for its fingerprint. */
export const workQueue = (fingerprint: string): string => `work-${fingerprint.slice(0, 24)}`;
export const resultQueue = (fingerprint: string): string => `results-${fingerprint.slice(0, 24)}`;
export const STUDIES = 'studies';

/** Finished jobs go at once. */
export const GONE = { removeOnComplete: true } as const;

/** Opens a server. @throws Error with exit code 6 where it cannot be reached, 2 where the queue is not installed */
export async function openServer(address: Address, say: (text: string) => void): Promise<Server> {
  const { Queue, Worker } = await bullmq();
  let closing = false;
  const connection = {
    host: address.host,
    port: address.port,
    db: address.database,
    maxRetriesPerRequest: null,
    retryStrategy: (tries: number) => (closing ? null : Math.min(100 * tries, 2_000)),
    ...(address.user === null ? {} : { username: address.user }),
    ...(address.password === null ? {} : { password: address.password }),
    ...(address.tls ? { tls: {} } : {}),
  };
  // What a queue writes about itself as it is opened would stay where a lender only looks.
  const settings = { connection, prefix: PREFIX, skipMetasUpdate: true };
  const opened: { close(): Promise<void>; disconnect?(): Promise<void> }[] = [];
  let gone = false;
  const lost = (error: Error): void => {
    if (gone || closing) return;
    gone = true;
    say(`The server ${address.shown} does not answer (${reasonOf(error)}). Waiting for it; nothing is lost.`);
  };
  const watched = <One extends Queue | Worker>(one: One): One => {
    (one as Queue).on('error', lost);
    opened.push(one);
    return one;
  };
  const first = new Queue(STUDIES, settings);
  try {
    await reached(first, address);
  } catch (error) {
    closing = true;
    first.on('error', () => {});
    await Promise.race([first.close(), new Promise((resolve) => setTimeout(resolve, 1_000))]).catch(() => {});
    throw error;
  }
  watched(first);
  const queues = new Map<string, Queue>([[STUDIES, first]]);
  return {
    queue(name) {
      const queue = queues.get(name) ?? watched(new Queue(name, settings));
      queues.set(name, queue);
      return queue;
    },
    worker: (name, process, options) =>
      watched(
        new Worker(name, async (job) => process(job.data, String(job.id)), {
          ...options,
          connection,
          prefix: PREFIX,
        }),
      ),
    answered() {
      if (gone) say(`The server ${address.shown} answers again.`);
      gone = false;
    },
    async close() {
      closing = true;
      // A server that is away must not keep the program.
      const away = new Promise<void>((resolve) => setTimeout(resolve, gone ? 0 : 3_000).unref());
      await Promise.race([Promise.allSettled(opened.map((one) => one.close())), away]);
    },
  };
}

/** Takes a queue off the server, key by key: nobody else is to be using it, but it does no harm if somebody is. */
export async function wipe(server: Server, name: string): Promise<void> {
  const client = await server.queue(name).backend.client;
  let cursor = '0';
  do {
    const [next, keys] = await client.scan(cursor, { MATCH: `${PREFIX}:${name}:*`, COUNT: 1_000 });
    cursor = next;
    if (keys.length > 0) await client.del(...keys);
  } while (cursor !== '0');
}

async function bullmq(): Promise<typeof import('bullmq')> {
  try {
    return await import('bullmq');
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'ERR_MODULE_NOT_FOUND')) throw error;
    const message =
      'For --over the packages bullmq and ioredis are needed, which are not installed: npm install bullmq ioredis';
    throw Object.assign(new Error(message), { exitCode: 2 });
  }
}

/** Waits for a server's first word. */
async function reached(queue: Queue, { shown }: Address): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  const refused = new Promise<never>((_, reject) => {
    queue.on('error', reject);
    timer = setTimeout(() => reject(new Error('no answer in time')), PATIENCE);
  });
  try {
    await Promise.race([queue.getWaitingCount(), refused]);
    queue.removeAllListeners('error');
  } catch (error) {
    const why = reasonOf(error as Error);
    throw Object.assign(new Error(`The server ${shown} cannot be used: ${why}.`), { exitCode: 6 });
  } finally {
    clearTimeout(timer);
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ECONNREFUSED: 'the connection is refused',
  ENOTFOUND: 'there is no such host',
  ECONNRESET: 'the connection was broken off; a server that speaks TLS takes rediss:// and no other takes it',
  EPROTO: 'it does not speak TLS; without it the address begins with redis://',
  CERT_HAS_EXPIRED: 'its certificate has expired',
  ERR_TLS_CERT_ALTNAME_INVALID: 'its certificate is for another host',
};

const UNTRUSTED: ReadonlySet<string> = new Set([
  'DEPTH_ZERO_SELF_SIGNED_CERT',
  'SELF_SIGNED_CERT_IN_CHAIN',
  'UNABLE_TO_GET_ISSUER_CERT_LOCALLY',
  'UNABLE_TO_VERIFY_LEAF_SIGNATURE',
]);

/** What a client says of an error, without addresses that may hold a password. */
function reasonOf(error: Error): string {
  const code = 'code' in error && typeof error.code === 'string' ? error.code : '';
  if (/WRONGPASS|NOAUTH|invalid.*password/i.test(error.message)) return 'user or password are not accepted';
  if (UNTRUSTED.has(code))
    return 'its certificate comes from nobody whom this machine knows; NODE_EXTRA_CA_CERTS=FILE names who signed it';
  const reason = REASONS[code] ?? code;
  return reason !== '' ? reason : printable(error.message.replace(/rediss?:\/\/\S*/g, '')).slice(0, 120);
}
