/** The worker pool on the built program, with real threads. */

import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { type EchoJob, type EchoPool, echoThread, openEchoPool } from './echo-pool.ts';

const pools: EchoPool[] = [];
function poolOf(threads: number): EchoPool {
  const pool = openEchoPool(threads);
  pools.push(pool);
  return pool;
}
afterAll(async () => {
  for (const pool of pools) await pool.close();
});

/** Jobs of uneven length, so that they finish out of order. */
function* unevenJobs(count: number): Generator<EchoJob> {
  for (let value = 0; value < count; value += 1) {
    const rounds = value % 7 === 0 ? 200_000 : 100;
    yield {
      kind: 'echo-test',
      input: value % 10 === 3 ? { value, rounds, fail: `no ${value}` } : { value, rounds },
    };
  }
}

describe('pool', () => {
  test('one, two and three threads give the same results in the same order', async () => {
    const results: string[] = [];
    for (const threads of [1, 2, 3]) {
      const lines: string[] = [];
      for await (const { index, outcome } of poolOf(threads).inOrder(unevenJobs(60))) {
        lines.push(`${index} ${outcome.ok ? JSON.stringify(outcome.value) : outcome.failure.message}`);
      }
      results.push(lines.join('\n'));
    }
    expect(results[0]?.split('\n')).toHaveLength(60);
    expect(results[1]).toBe(results[0]);
    expect(results[2]).toBe(results[0]);
  });

  test('as finished hands on every job once', async () => {
    const seen: number[] = [];
    for await (const { index, job } of poolOf(2).asFinished(unevenJobs(60))) {
      expect(job.input.value).toBe(index);
      seen.push(index);
    }
    expect(seen.sort((a, b) => a - b)).toEqual(Array.from({ length: 60 }, (_, index) => index));
  });

  test('an error of one job is a value with its exit code; the others go on', async () => {
    const outcome = await poolOf(1).one({ kind: 'echo-test', input: { value: 1, fail: 'no such pipe' } });
    expect(outcome).toMatchObject({
      ok: false,
      failure: { name: 'RangeError', message: 'no such pipe', exitCode: 4 },
    });
    const unknown = await poolOf(1).one({ kind: 'no-such-kind' } as unknown as EchoJob);
    expect(unknown).toMatchObject({ ok: false, failure: { exitCode: 5 } });
  });

  test('takes no more than two jobs per thread ahead of what is handed on', async () => {
    for (const order of ['inOrder', 'asFinished'] as const) {
      let taken = 0;
      let handedOn = 0;
      let most = 0;
      const counted = async function* (): AsyncGenerator<EchoJob> {
        for (const job of unevenJobs(300)) {
          taken += 1;
          most = Math.max(most, taken - handedOn);
          yield job;
        }
      };
      for await (const _ of poolOf(2)[order](counted())) handedOn += 1;
      expect(handedOn).toBe(300);
      expect(most).toBeLessThanOrEqual(5);
    }
  });

  test('a source that waits for a result before it names the next job is not waited for', async () => {
    let release = (): void => {};
    const source = async function* (): AsyncGenerator<EchoJob> {
      yield { kind: 'echo-test', input: { value: 0 } };
      await new Promise<void>((resolve) => {
        release = resolve;
      });
      yield { kind: 'echo-test', input: { value: 1 } };
    };
    const values: number[] = [];
    for await (const { index } of poolOf(2).asFinished(source())) {
      values.push(index);
      release();
    }
    expect(values).toEqual([0, 1]);
  });

  test('abort ends the sequence with its reason, and the pool still works', async () => {
    const pool = poolOf(2);
    const controller = new AbortController();
    const endless = function* (): Generator<EchoJob> {
      for (;;) yield { kind: 'echo-test', input: { value: 1, rounds: 1e12 } };
    };
    setTimeout(() => controller.abort(), 50);
    const drain = async (): Promise<void> => {
      for await (const _ of pool.asFinished(endless(), controller.signal));
    };
    await expect(drain()).rejects.toThrow(expect.objectContaining({ name: 'AbortError' }));
    const after = await pool.one({ kind: 'echo-test', input: { value: 5 } });
    expect(after).toMatchObject({ ok: true, value: { value: 5 } });
  });

  test('leaving the loop stops what is under way', async () => {
    const pool = poolOf(2);
    let ended = false;
    const jobs = function* (): Generator<EchoJob> {
      try {
        yield { kind: 'echo-test', input: { value: 0 } };
        for (;;) yield { kind: 'echo-test', input: { value: 1, rounds: 1e12 } };
      } finally {
        ended = true;
      }
    };
    for await (const { index } of pool.asFinished(jobs())) {
      expect(index).toBe(0);
      break;
    }
    expect(ended).toBe(true);
  });

  test('a fault that passes leaves no trace: the job is done again on a fresh thread', async () => {
    const pool = poolOf(2);
    const sound = await pool.one({ kind: 'echo-test', input: { value: 3, rounds: 50 } });
    for (const how of ['exit', 'defect'] as const) {
      const once = join(mkdtempSync(join(tmpdir(), 'echocone-fault-')), how);
      const outcome = await pool.one({ kind: 'echo-test', input: { value: 3, rounds: 50, how, once } });
      expect(outcome).toEqual(sound);
      expect(existsSync(once)).toBe(true);
    }
  });

  test('one that comes again has the exit code of a fault, and says what it was; others are not touched', async () => {
    const pool = poolOf(2);
    const jobs: EchoJob[] = [0, 1, 2, 3].map((value) => ({
      kind: 'echo-test',
      input: value === 2 ? { value, how: 'defect' } : { value },
    }));
    const ended = new Map<number, unknown>();
    for await (const { index, outcome } of pool.asFinished(jobs)) ended.set(index, outcome);
    expect(ended.get(2)).toMatchObject({
      ok: false,
      failure: {
        exitCode: 5,
        message: expect.stringMatching(/twice.*undefined is not a pipe \(at .*echo-thread/),
      },
    });
    for (const index of [0, 1, 3]) expect(ended.get(index)).toMatchObject({ ok: true });
    await expect(pool.one({ kind: 'echo-test', input: { value: 1, how: 'exit' } })).resolves.toMatchObject({
      ok: false,
      failure: { exitCode: 5 },
    });
  });

  test('want of memory is such a fault', () => {
    const run = inProcess(
      'const outcome = await pool.one({ kind: "echo-test", input: { value: 1, how: "memory" } });',
      ['--max-old-space-size=60'],
    );
    expect(run.stdout).toMatch(/"exitCode":5/);
    expect(run.stdout).toMatch(/memory/);
  });

  test('many threads listen without a warning', () => {
    const run = inProcess(`
      const jobs = Array.from({ length: 40 }, (_, value) => ({ kind: 'echo-test', input: { value } }));
      let outcome = 0;
      for await (const _ of pool.asFinished(jobs, new AbortController().signal)) outcome += 1;`);
    expect(run.stderr).toBe('');
    expect(run.stdout).toBe('40');
  });

  /**
   * Ended at the moments at which a thread loads its code, in a process of its own because what is guarded
   * against takes the process down: with an ES module in the place of `thread.cjs` five of five such processes died.
   */
  test('threads may be ended while they load', () => {
    const program = `
      const { openPool } = await import(${JSON.stringify(new URL('../../../dist/src/study/work/pool.js', import.meta.url).href)});
      for (let round = 0; round < 60; round += 1) {
        const pool = openPool(2, new URL(${JSON.stringify(echoThread.href)}));
        const job = { kind: 'echo-test', input: { value: 1, rounds: 1e12 } };
        const jobs = [pool.one(job), pool.one(job)];
        await new Promise((resolve) => setTimeout(resolve, 50 + round / 4));
        await pool.close();
        await Promise.all(jobs);
      }
      process.stdout.write('alive');`;
    const run = spawnSync(process.execPath, ['--input-type=module', '-e', program], { encoding: 'utf8' });
    expect(run.stderr).toBe('');
    expect(run.stdout).toBe('alive');
  });
});

/** Runs a piece of program that has a `pool` of twelve threads and leaves an `outcome`. */
function inProcess(piece: string, flags: readonly string[] = []) {
  const program = `
    const { openPool } = await import(${JSON.stringify(new URL('../../../dist/src/study/work/pool.js', import.meta.url).href)});
    const pool = openPool(12, new URL(${JSON.stringify(echoThread.href)}));
    ${piece}
    await pool.close();
    process.stdout.write(JSON.stringify(outcome));`;
  return spawnSync(process.execPath, [...flags, '--input-type=module', '-e', program], { encoding: 'utf8' });
}
