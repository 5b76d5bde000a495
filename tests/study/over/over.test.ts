/**
 * Studies over a queue, on a real server: gatherer and lenders in this process, with threads that answer at once, so that
 * what is tested is what goes over the wire. The same with real processes and engines: `npm run study:over`.
 */

import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { openFile } from '../../../src/case/load.ts';
import { sentCase } from '../../../src/case/sent-case.ts';
import { addressOf } from '../../../src/study/over/address.ts';
import { arithmeticOf } from '../../../src/study/over/arithmetic.ts';
import { cleanUp } from '../../../src/study/over/clean-up.ts';
import { openCrew, pieceId } from '../../../src/study/over/crew.ts';
import { lend } from '../../../src/study/over/lender.ts';
import { LenderBook } from '../../../src/study/over/lender-book.ts';
import { received } from '../../../src/study/over/parcel.ts';
import { openServer, resultQueue, type Server, STUDIES, workQueue } from '../../../src/study/over/server.ts';
import type { Job } from '../../../src/study/work/jobs.ts';
import type { Parcel } from '../../../src/study/work/parcel.ts';
import type { Pool } from '../../../src/study/work/pool.ts';
import { hasRedis } from '../../on-this-machine.ts';
import { newQueueServer } from '../../queue-server.mjs';

const program = 'echocone 1';
const draftA = new URL('../../../cases/saltmarsh-125/draft-a.yaml', import.meta.url).pathname;
const sent = sentCase(openFile(draftA), ['run.maxCycles=9', 'pipe.sections.baffle.length=200 mm']);

function parcelOf(draft: string): Parcel {
  return {
    kind: 'draft',
    program,
    draft,
    ...sent,
    runSpeeds: [9000],
    speeds: [9000],
    cell: 0.02,
    durationDeg: null,
  };
}

const torque = (draft: string): number => Number(draft.split(' ')[1]) / 3;

/** Threads that answer at once. */
function quickPool(pieces: string[] = []): Pool {
  const one = async ({ input }: Job<'draft'>) => {
    pieces.push(input.draft);
    await new Promise((resolve) => setTimeout(resolve, 1));
    return { ok: true, value: { ok: true, rows: [{ speed_rpm: 9000, torque_nm: torque(input.draft) }] } };
  };
  return { threads: 4, one } as unknown as Pool;
}

describe('a parcel', () => {
  test('comes out as the case that its sender has', () => {
    const taken = received(JSON.parse(JSON.stringify(parcelOf('full 1'))), program);
    expect(taken.ok).toBe(true);
    const { subject } = (taken.ok ? taken.job.input : {}) as { subject: { pipe: unknown; run: unknown } };
    expect(subject.run).toMatchObject({ maxCycles: 9, cell: 0.02, speeds: [9000] });
    expect(JSON.stringify(subject.pipe)).toContain('"length":0.2');
  });

  const document = sent.document as Record<string, unknown>;
  test.each<[string, unknown, RegExp]>([
    ['foreign keys', { ...parcelOf('full 1'), run: 'rm -rf /' }, /keys that are not known: run/],
    ['foreign keys in the case', { ...parcelOf('full 1'), document: { ...document, shell: 'x' } }, /shell/],
    [
      'a path in the place of a pipe',
      { ...parcelOf('full 1'), document: { ...document, pipe: '/etc/passwd' } },
      /pipe: it must stand in the piece; a file that it names is not read/,
    ],
    [
      'a path by an override',
      { ...parcelOf('full 1'), set: ['engine=/etc/passwd'] },
      /an override of a whole part is not taken/,
    ],
    [
      'a huge mesh',
      {
        ...parcelOf('full 1'),
        cell: 1e-4,
        set: ['pipe.sections.belly.length=1.9 m', 'pipe.sections.header.length=1.9 m'],
      },
      /at most 20000/,
    ],
    ['a mesh finer than any', { ...parcelOf('full 1'), cell: 1e-9 }, /its cell is not what it should be/],
    ['a string of a megabyte', { ...parcelOf('full 1'), draft: 'x'.repeat(1e6) }, /bytes; at most/],
    [
      'a string of a megabyte in the case',
      { ...parcelOf('full 1'), document: { ...document, note: 'x'.repeat(1e6) } },
      /bytes; at most/,
    ],
    [
      'another version',
      { ...parcelOf('full 1'), program: 'echocone 2' },
      /it is of echocone 2, and this is echocone 1/,
    ],
    ['nothing', null, /no group of keys/],
    ['a list', [1], /no group of keys/],
    ['no speeds', { ...parcelOf('full 1'), speeds: [] }, /its speeds/],
  ])('with %s is refused in words', (_, data, words) => {
    const taken = received(data, program);
    expect(taken.ok ? 'taken' : taken.refusal).toMatch(words);
  });
});

describe.skipIf(!hasRedis)('on a server (skipped where redis-server is not installed)', () => {
  let redis: Awaited<ReturnType<typeof newQueueServer>>;
  let server: Server;
  const said: string[] = [];
  const open = () =>
    openServer(addressOf(redis.address, { ECHOCONE_QUEUE_PASSWORD: redis.password }), (text) =>
      said.push(text),
    );
  beforeAll(async () => {
    redis = await newQueueServer();
    await redis.start();
    server = await open();
  });
  afterAll(async () => {
    await server.close();
    await redis.kill();
  });

  const keysLeft = async () => {
    const client = await server.queue(STUDIES).backend.client;
    return (await client.scan('0', { MATCH: '*', COUNT: 10_000 }))[1];
  };

  const studyOf = (fingerprint: string) => ({
    fingerprint: fingerprint.repeat(64).slice(0, 64),
    kind: 'overnight',
    name: 'baffle',
    program,
    arithmetic: arithmeticOf(),
  });

  /** Gathers so many pieces; gives the torque of each, and what could not be had. */
  async function gather(fingerprint: string, count: number, each: (n: number) => void = () => {}) {
    const study = studyOf(fingerprint);
    const book = new LenderBook();
    const parcel = ({ input }: Job): Parcel => parcelOf((input as { draft: string }).draft);
    const crew = openCrew({ server, study, parcelOf: parcel, book, say: (text) => said.push(text) });
    const jobs = Array.from({ length: count }, (_, n) => ({
      kind: 'draft',
      input: { draft: `full ${n + 1}` },
    }));
    const found = new Map<number, unknown>();
    for await (const { index, outcome } of crew.asFinished(jobs as unknown as Job<'draft'>[])) {
      expect(found.has(index)).toBe(false);
      const value = outcome.ok ? (outcome.value as unknown as { rows: { torque_nm: number }[] }) : null;
      found.set(index, value?.rows[0]?.torque_nm ?? (outcome.ok ? null : outcome.failure.message));
      each(found.size);
    }
    await cleanUp(server, study.fingerprint);
    return { found, book };
  }

  function newLender(pieces: string[] = [], of = program) {
    const stop = new AbortController();
    const task = {
      server,
      pool: quickPool(pieces),
      program: of,
      signal: stop.signal,
      say: (text: string) => said.push(text),
      working: () => {},
    };
    const ended = lend(task);
    return async () => {
      stop.abort();
      await ended;
    };
  }

  test('three lenders that come and go: each piece once, and nothing is left', async () => {
    const stops = [newLender(), newLender()];
    const { found, book } = await gather('a', 300, (n) => {
      if (n === 50) stops.push(newLender());
      if (n === 100) void stops[0]?.();
    });
    await Promise.all(stops.map((stop) => stop()));
    expect([...found.keys()].sort((x, y) => x - y)).toEqual(Array.from({ length: 300 }, (_, k) => k));
    for (const [index, value] of found) expect(value).toBe((index + 1) / 3);
    expect(book.lines.reduce((sum, { pieces }) => sum + pieces, 0)).toBe(300);
    expect(await keysLeft()).toEqual([]);
  }, 60_000);

  test('what others put there is refused by the lender; the study marks it and goes on', async () => {
    const work = server.queue(workQueue('b'.repeat(64)));
    await work.add('draft', { ...parcelOf('full 3'), shell: 'x' }, { jobId: pieceId('full 3') });
    await server
      .queue(resultQueue('b'.repeat(64)))
      .add('result', { draft: 'full 4', outcome: 'x' }, { jobId: pieceId('full 4') });
    await server.queue(resultQueue('b'.repeat(64))).add('result', 'nobody asked', { jobId: 'px' });
    const stop = newLender();
    const { found } = await gather('b', 8);
    await stop();
    expect(found.get(2)).toMatch(/refused by the lender: it has keys that are not known: shell/);
    expect(found.get(3)).toBe(4 / 3);
    expect(said.join('\n')).toMatch(/An answer for full 4 is not taken/);
    expect(found.size).toBe(8);
  }, 60_000);

  test('a lender of another version takes nothing, and says why', async () => {
    const pieces: string[] = [];
    const stops = [newLender(pieces, 'echocone 2'), newLender()];
    const { found } = await gather('c', 5);
    await Promise.all(stops.map((stop) => stop()));
    expect(found.size).toBe(5);
    expect(pieces).toEqual([]);
    expect(said.join('\n')).toMatch(/"baffle" is not served: it is of "echocone 1", and this is echocone 2/);
  }, 60_000);

  test('the server killed and started again: both sides wait and say so, nothing is lost', async () => {
    const stop = newLender();
    let again: Promise<void> | null = null;
    const { found } = await gather('d', 200, (n) => {
      if (n !== 60) return;
      again = redis
        .kill()
        .then(() => new Promise((resolve) => setTimeout(resolve, 1_000)))
        .then(() => redis.start());
    });
    await again;
    await stop();
    expect(found.size).toBe(200);
    expect(said.join('\n')).toMatch(/does not answer .*Waiting for it; nothing is lost/);
    expect(said.join('\n')).toMatch(/answers again/);
    expect(said.join('\n')).not.toContain(redis.password);
  }, 90_000);

  test('a lender that ends a piece after its study has ended leaves nothing either', async () => {
    const study = studyOf('e');
    let release = (): void => {};
    const held = new Promise<void>((resolve) => {
      release = resolve;
    });
    const pieces: string[] = [];
    const slow = { ...quickPool(pieces), threads: 1 } as Pool;
    const pool: Pool = {
      ...slow,
      one: async (job) => {
        const outcome = await slow.one(job);
        await held;
        return outcome;
      },
    };
    const stop = new AbortController();
    const ended = lend({ server, pool, program, signal: stop.signal, say: () => {}, working: () => {} });
    const gathering = new AbortController();
    const crew = openCrew({
      server,
      study,
      parcelOf: ({ input }) => parcelOf((input as { draft: string }).draft),
      book: new LenderBook(),
      say: () => {},
    });
    const jobs = [{ kind: 'draft', input: { draft: 'full 1' } }] as unknown as Job<'draft'>[];
    const gathered = (async () => {
      for await (const _ of crew.asFinished(jobs, gathering.signal));
    })();
    await vi.waitFor(() => expect(pieces).toEqual(['full 1']), 10_000);
    gathering.abort(new Error('cancelled'));
    await expect(gathered).rejects.toThrow('cancelled');
    await cleanUp(server, study.fingerprint);
    release();
    await vi.waitFor(async () => expect(await keysLeft()).toEqual([]), 10_000);
    stop.abort();
    await ended;
    expect(await keysLeft()).toEqual([]);
  }, 60_000);

  test('a wrong password is said, without it', async () => {
    const address = addressOf(redis.address, { ECHOCONE_QUEUE_PASSWORD: 'guessed' });
    await expect(openServer(address, () => {})).rejects.toThrow(
      expect.objectContaining({
        exitCode: 6,
        message: expect.stringMatching(/user or password are not accepted/),
      }),
    );
  });
});
