/** Every verb that works for long ends within a second of Ctrl-C (one is asked by SIGTERM), with 130. On the built program. */

import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'echocone-interrupted-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const draft = join(root, 'cases/saltmarsh-125/draft-a.yaml');
const study = join(root, 'cases/studies/baffle-and-stinger.yaml');
const long = join(folder, 'long.yaml');
writeFileSync(
  long,
  'kind: pulse\nsections: [{ name: a, length: 9 m, diameter: 40 mm, pressure: 2 bar }]\nuntil: 9 s\ncell: 1 mm\n',
);
const WORK = {
  pulse: [long],
  sweep: [draft, '--cell', '2mm', '--threads', '2'],
  compare: [draft, join(root, 'cases/saltmarsh-125/draft-b.yaml'), '--cell', '2mm', '--threads', '2'],
  map: [draft, '--cell', '2mm', '--threads', '2'],
  overnight: [study, '--cell', '2mm', '--threads', '2'],
  aim: [draft, '--rpm', '11000', '--cell', '2mm', '--threads', '2'],
  verify: [],
} as const;

/** A second is what is promised; the rest is for a machine that other tests keep busy. */
const SOON = 2500;

test.each(Object.entries(WORK))('%s', async (verb, words) => {
  const out = verb === 'verify' ? [] : ['--out', join(folder, verb)];
  const child = spawn(process.execPath, [join(root, 'dist/src/main.js'), verb, ...words, ...out], {
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  let said = '';
  child.stderr.on('data', (piece) => {
    said += String(piece);
  });
  const ended = new Promise<number | null>((resolve) => child.once('close', resolve));
  // Into the work: threads are up and march, or on a busy machine load.
  await Promise.race([ended, new Promise((resolve) => setTimeout(resolve, 1200))]);
  expect(child.exitCode, said).toBeNull();
  const begun = performance.now();
  child.kill(verb === 'map' ? 'SIGTERM' : 'SIGINT');
  expect(await ended, said).toBe(130);
  expect(performance.now() - begun).toBeLessThan(SOON);
  expect(said).toMatch(/Interrupted/);
});
