/** `compare` broken off by Ctrl-C leaves what it has, marked as unfinished, and goes on to the files of one never broken off. */

import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'echocone-compare-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const demo = (letter: string): string => join(root, `cases/saltmarsh-125/draft-${letter}.yaml`);
const words = (out: string): string[] => [
  join(root, 'dist/src/main.js'),
  ...['compare', demo('a'), demo('c'), '--rpm', '8500:10500:500', '--cell', '24mm', '--threads', '1'],
  ...['--out', join(folder, out)],
];
const text = (out: string, file: string): string => readFileSync(join(folder, out, file), 'utf8');

test('is gone on with to the same bytes, and says meanwhile what it has not run', async () => {
  const code = await new Promise<number | null>((resolve) => {
    const child = spawn(process.execPath, words('broken'), { stdio: 'ignore' });
    const look = setInterval(() => {
      const journal = join(folder, 'broken/compare-journal.jsonl');
      if (!existsSync(journal) || readFileSync(journal, 'utf8').split('\n').length <= 2) return;
      // Once: a second Ctrl-C ends at once.
      clearInterval(look);
      child.kill('SIGINT');
    }, 3);
    child.on('close', resolve);
  });
  expect(code).toBe(130);
  expect(text('broken', 'compare.html')).toContain('Only what was run is judged.');
  const { unfinished } = JSON.parse(text('broken', 'compare.json'));
  expect(unfinished.map((one: { name: string }) => one.name)).toContain('draft C');
  const again = spawnSync(process.execPath, words('broken'), { encoding: 'utf8' });
  expect(again.stderr).toMatch(/Going on: \d+ of 10 speeds are done already/);
  const whole = spawnSync(process.execPath, words('whole'), { encoding: 'utf8' });
  expect(again.status).toBe(whole.status);
  for (const file of ['compare.csv', 'compare.json', 'compare.html'])
    expect(text('broken', file)).toBe(text('whole', file));
  expect(existsSync(join(folder, 'broken/compare-journal.jsonl'))).toBe(false);
  expect(JSON.parse(text('whole', 'compare.json')).unfinished).toEqual([]);
}, 240_000);
