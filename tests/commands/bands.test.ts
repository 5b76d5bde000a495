/**
 * Bands on the built program with real threads, on coarse cells: the same bytes for any number of threads, after a break, from the
 * file of members and over a queue; and what is told. Ring: identity.
 */

import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasRedis } from '../on-this-machine.ts';
import { newQueueServer } from '../queue-server.mjs';
import { unfolded } from './unfolded.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const main = join(root, 'dist/src/main.js');
const folder = mkdtempSync(join(tmpdir(), 'echocone-bands-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const draft = (name: string): string => join(root, `cases/saltmarsh-125/draft-${name}.yaml`);
const words = (name: string, ...more: string[]): string[] => [
  ...[main, 'sweep', draft('a'), '--cell', '40mm', '--rpm', '9500:10500:1000', '--no-advice'],
  ...['--out', join(folder, name), ...more],
];
const run = (args: readonly string[], env = {}) =>
  spawnSync(process.execPath, args, { encoding: 'utf8', env: { ...process.env, ...env } });
const text = (name: string, file: string): string => readFileSync(join(folder, name, file), 'utf8');
const FILES = ['bands.csv', 'members.csv', 'sweep.json', 'sweep.html'];
const expectSame = (name: string, files = FILES): void => {
  for (const file of files) expect(text(name, file) === text('whole', file), file).toBe(true);
};

beforeAll(() => {
  const { status, stdout } = run(words('whole', '--bands', '8', '--threads', '1'));
  expect(status).toBe(0);
  writeFileSync(join(folder, 'whole.txt'), stdout);
});

describe('sweep --bands', () => {
  test('says how sure the answer is, on the terminal, on the page and in the files', () => {
    const said = unfolded(readFileSync(join(folder, 'whole.txt'), 'utf8'));
    expect(said).toContain('How sure: +- holds nine in ten of 8 members');
    expect(said).toMatch(/Best torque [\d.]+ \+- [\d.]+ Nm/);
    expect(text('whole', 'sweep.html')).toContain('How sure this is');
    const { bands, chances } = JSON.parse(text('whole', 'sweep.json'));
    expect(bands).toMatchObject({ members: 8, cell: 0.04 });
    expect(bands.inputs).toHaveLength(text('whole', 'members.csv').split('\n')[0]!.split(',').length - 1);
    expect(chances.lands_at_target.of).toBeLessThanOrEqual(8);
    expect(chances.lands.map((one: { speed_rpm: number }) => one.speed_rpm)).toEqual([9500, 10500]);
    const lines = text('whole', 'bands.csv').trim().split('\n');
    expect(lines[0]).toBe('speed_rpm,column,p05,p25,p50,p75,p95,count');
    const torque = lines
      .filter((line) => line.split(',')[1] === 'torque_nm')
      .map((line) => line.split(',').map(Number));
    expect(torque).toHaveLength(2);
    for (const [, , p05, p25, p50, p75, p95] of torque)
      expect([p05, p25, p50, p75, p95]).toEqual([p05!, p25!, p50!, p75!, p95!].sort((a, b) => a - b));
    expect(torque[0]![2]).toBeLessThan(torque[0]![6]!);
  });

  test('the same for two threads, and for the members of the file', () => {
    expect(run(words('two', '--bands', '8', '--threads', '2')).status).toBe(0);
    expectSame('two');
    const members = join(folder, 'whole', 'members.csv');
    expect(run(words('filed', '--members', members, '--threads', '1')).status).toBe(0);
    expectSame('filed', ['bands.csv', 'members.csv']);
  });

  test('broken off it goes on to the same files, and its journals go', async () => {
    const journal = join(folder, 'broken', 'members-journal.jsonl');
    const child = spawn(process.execPath, words('broken', '--bands', '8', '--threads', '1'), {
      stdio: 'ignore',
    });
    const ended = new Promise((resolve) => child.once('exit', resolve));
    while (!existsSync(journal) || readFileSync(journal, 'utf8').split('\n').length < 4)
      await new Promise((resolve) => setTimeout(resolve, 20));
    child.kill('SIGKILL');
    await ended;
    const on = run(words('broken', '--bands', '8', '--threads', '1'));
    expect(unfolded(on.stderr)).toMatch(/Going on: \d+ of 16 speeds of members are done already/);
    expectSame('broken');
    expect(readdirSync(join(folder, 'broken')).filter((name) => name.includes('journal'))).toEqual([]);
  });

  test('a member that cannot be, and a column of no input, are told and not taken', () => {
    const file = join(folder, 'odd.csv');
    writeFileSync(
      file,
      'member,engine.fuel.equivalenceRatio,engine.nothing [mm]\n1,1.1,1\n2,-3,1\n3,1.15,1\n4,1.05,1\n',
    );
    const { status, stdout, stderr } = run(words('odd', '--members', file, '--threads', '1'));
    expect(status).toBe(0);
    expect(unfolded(stderr)).toContain(
      '1 columns of the members are no inputs here and are left out: engine.nothing',
    );
    expect(unfolded(stdout)).toContain('1 member could not be used at all');
    const { bands } = JSON.parse(text('odd', 'sweep.json'));
    expect(bands.troubles).toMatchObject({ lost: 1, incomplete: 1 });
    expect(bands.troubles.reasons[0]).toContain('member 2 cannot be');
  });

  test.each([
    [['--bands', '3'], 'must be a whole number from 8'],
    [['--bands', '8', '--members', 'm.csv'], 'give one of the two'],
    [['--over', 'redis://localhost'], 'go with --bands here'],
  ])('%j is refused', (flags, message) => {
    const { status, stderr } = run(words('refused', ...flags));
    expect(status).toBe(2);
    expect(unfolded(stderr)).toContain(message);
  });
});

describe.skipIf(!hasRedis)('over a queue', () => {
  test('the same bytes', async () => {
    const server = await newQueueServer();
    const env = { ECHOCONE_QUEUE_PASSWORD: server.password };
    await server.start();
    const lender = spawn(process.execPath, [main, 'lend', '--over', server.address, '--threads', '1'], {
      stdio: 'ignore',
      env: { ...process.env, ...env },
    });
    const gone = new Promise((resolve) => lender.once('exit', resolve));
    try {
      const { status } = run(words('queue', '--bands', '8', '--threads', '1', '--over', server.address), env);
      expect(status).toBe(0);
      expectSame('queue');
    } finally {
      lender.kill('SIGKILL');
      await gone;
      server.remove();
    }
  });
});

describe('compare --bands', () => {
  const compare = (name: string, ...more: string[]) =>
    run([
      ...[main, 'compare', draft('a'), draft('b'), '--cell', '40mm', '--rpm', '9500:10500:1000'],
      ...['--bands', '8', '--threads', '1', '--out', join(folder, name), ...more],
    ]);

  test('says in how many members a draft beats the first', () => {
    const { status, stdout } = compare('drafts');
    expect(status).toBe(0);
    const { chances, bands } = JSON.parse(text('drafts', 'compare.json'));
    expect(bands.map((one: { members: number }) => one.members)).toEqual([8, 8]);
    expect(chances).toHaveLength(1);
    const [{ at_target, over_band, best_power }] = chances;
    for (const { better, by } of [at_target, over_band, best_power]) {
      expect(better.of).toBe(by.count);
      // More than half ahead and a median ahead are one thing.
      if (better.in > better.of / 2) expect(by.p75).toBeGreaterThan(0);
      if (better.in < better.of / 2) expect(by.p25).toBeLessThan(0);
    }
    expect(unfolded(stdout)).toContain(
      `torque at 10500 rpm in ${at_target.better.in} of ${at_target.better.of}`,
    );
    expect(text('drafts', 'compare.html')).toContain('In how many members a draft beats the first');
    expect(text('drafts', 'bands.csv').split('\n')[0]).toBe(
      'draft,speed_rpm,column,p05,p25,p50,p75,p95,count',
    );
  });

  test('a finished sweep cannot be run anew', () => {
    const { status, stderr } = run([main, 'compare', draft('b'), join(folder, 'whole'), '--bands', '8']);
    expect(status).toBe(2);
    expect(unfolded(stderr)).toContain('takes cases');
  });
});
