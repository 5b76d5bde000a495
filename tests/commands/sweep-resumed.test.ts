/**
 * A sweep that is broken off, on the built program with real threads: the same command goes on and ends with the same
 * bytes. Few cycles on a coarse mesh: nothing has settled, which is what exit code 4 says.
 */

import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'echocone-resumed-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const words = (name: string, more: readonly string[] = []): string[] => [
  join(root, 'dist/src/main.js'),
  'sweep',
  join(root, 'cases/saltmarsh-125/draft-a.yaml'),
  ...['--cell', '16mm', '--rpm', '8000:11500:500', '--set', 'run.maxCycles=8'],
  ...['--threads', '1', '--out', join(folder, name), ...more],
];
const run = (name: string, ...more: string[]) =>
  spawnSync(process.execPath, words(name, more), { encoding: 'utf8' });
const text = (name: string, file: string): string => readFileSync(join(folder, name, file), 'utf8');
const journal = (name: string): string => join(folder, name, 'sweep-journal.jsonl');

/** Starts a sweep and ends it by a signal once a group of its speeds is in the journal. */
async function brokenOff(name: string, signal: 'SIGINT' | 'SIGKILL') {
  const child = spawn(process.execPath, words(name), { stdio: ['ignore', 'ignore', 'pipe'] });
  let said = '';
  child.stderr.on('data', (piece) => {
    said += String(piece);
  });
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
  while (!existsSync(journal(name)) || readFileSync(journal(name), 'utf8').split('\n').length < 3)
    await new Promise((resolve) => setTimeout(resolve, 20));
  child.kill(signal);
  return { status: await ended, stderr: said };
}

beforeAll(() => {
  expect(run('whole').status).toBe(4);
});

test('interrupted: says how to go on, keeps what is done, goes on to the same files', async () => {
  const { status, stderr } = await brokenOff('interrupted', 'SIGINT');
  expect(status).toBe(130);
  expect(stderr).toContain(`To go on: the same command with --out ${join(folder, 'interrupted')}`);
  expect(stderr).toContain('Finished speeds are kept');
  const on = run('interrupted');
  expect(on.stderr).toMatch(/Going on: [1-7] of 8 speeds are done already\./);
  expect(on.status).toBe(4);
  for (const file of ['sweep.csv', 'sweep.json', 'sweep.html'])
    expect(text('interrupted', file) === text('whole', file), file).toBe(true);
});

test('killed: the same, a torn line included', async () => {
  await brokenOff('killed', 'SIGKILL');
  writeFileSync(journal('killed'), '{"draft":"1","res', { flag: 'a' });
  const on = run('killed');
  expect(on.stderr).toContain('torn');
  for (const file of ['sweep.csv', 'sweep.json'])
    expect(text('killed', file) === text('whole', file), file).toBe(true);
});

test('the journal goes when the sweep is done', () => {
  expect(readdirSync(join(folder, 'whole')).filter((name) => name.includes('journal'))).toEqual([]);
});

test('with other flags it is refused, and started over with --overwrite', async () => {
  await brokenOff('changed', 'SIGKILL');
  const other = run('changed', '--set', 'pipe.endCorrection=0.5');
  expect(other.status).toBe(6);
  expect(other.stderr).toContain('another study');
  const anew = run('changed', '--set', 'pipe.endCorrection=0.5', '--overwrite');
  expect(anew.status).toBe(4);
  expect(anew.stderr).not.toContain('Going on');
});
