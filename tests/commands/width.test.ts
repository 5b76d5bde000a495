/**
 * Ring: identity. Nothing that the program prints is wider than 80 columns: the help of every verb, and a real output of
 * each that ends soon, on the built program. What is to be typed stands whole, since it is copied; paths here are short.
 */

import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { spoken } from '../../src/commands/frame/spoken.ts';
import * as verbs from '../../src/commands/frame/verbs.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'echocone-width-'));
beforeAll(() => {
  cpSync(join(root, 'cases/saltmarsh-125'), join(folder, 'club'), { recursive: true });
  writeFileSync(join(folder, 'torn.yaml'), `kind: pipe\nname: my: pipe, ${'long '.repeat(30)}\n`);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const names = Object.values(verbs).map(({ name }) => name);
const coarse = ['--cell', '30mm', '--set', 'run.maxCycles=6', '--overwrite'];
const outputs: readonly (readonly string[])[] = [
  ['--help'],
  ...names.map((name) => [name, '--help']),
  ['new', 'fifty', '--intake', 'disc', '--bore', '40mm', '--stroke', '39.7mm', '--rpm', '12500'],
  ['new', 'fifty', '--bore', '40,5mm'],
  ['check', 'club/draft-a.yaml'],
  ['check', 'torn.yaml'],
  ['check', 'nowhere.yaml'],
  ['keys', 'engine'],
  ['keys', 'engine.pasage'],
  ['sweep', 'club/draft-a.yaml', '--rpm', '9000:10000:1000', '--no-advice', '--out', 'r/s', ...coarse],
  ['map', 'club/draft-a.yaml', '--rpm', '9500', '--duration', '188:196:8', '--out', 'r/m', ...coarse],
  ['compare', 'club/draft-a.yaml', 'club/draft-b.yaml', '--rpm', '9500:10000:500', '--out', 'r/c', ...coarse],
  ['unroll', 'club/draft-a.yaml', '--out', 'r/u'],
  ['lend', '--over', 'redis://127.0.0.1:1'],
];

test.each(outputs.map((words) => [words.join(' '), words] as const))('%s', (_, words) => {
  const { stdout, stderr } = spawnSync(process.execPath, [join(root, 'dist/src/main.js'), ...words], {
    cwd: folder,
    encoding: 'utf8',
  });
  const lines = `${stdout}${stderr}`.split('\n');
  expect(lines.length).toBeGreaterThan(1);
  const wide = lines.filter((line) => [...line].length > 80);
  expect(wide).toEqual([]);
});

test('a sentence is folded; a command to type and the line of a file stay whole', () => {
  const sentence = 'word '.repeat(30).trim();
  for (const line of spoken(sentence).split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  expect(spoken(sentence).replaceAll('\n', ' ')).toBe(sentence);
  const typed = `Next: npx echocone sweep ${'a/'.repeat(50)}case.yaml`;
  expect(spoken(`Done. ${typed}`)).toBe(`Done.\n${typed}`);
  const shown = `  12 | ${'x'.repeat(90)}`;
  expect(spoken(shown)).toBe(shown);
});
