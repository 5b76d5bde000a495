/** What the long studies share: running the program, and keeping what was found with date and commit. */

import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

export const root = new URL('../../', import.meta.url).pathname;
const words = process.argv.slice(2);

export const flag = (name, fallback) => (words.includes(name) ? words[words.indexOf(name) + 1] : fallback);
export const cell = flag('--cell', '12mm');

/** Folder of a run, kept so that a study can be gone on with. */
export function folderOf(name) {
  const path = join(resolve(root, flag('--out', `runs/studies-${cell}`)), name);
  mkdirSync(join(path, '..'), { recursive: true });
  return path;
}

/** Runs a verb to its end and gives its seconds, null if it went on with a journal; what it says goes to the terminal. */
export function echocone(...given) {
  const resumed = existsSync(join(given[given.indexOf('--out') + 1], 'journal.jsonl'));
  const start = performance.now();
  const program = join(root, 'dist/src/main.js');
  const { status } = spawnSync(process.execPath, [program, ...given], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  if (status !== 0 && status !== 4) throw new Error(`echocone ${given[0]} ended with ${status}`);
  return resumed ? null : (performance.now() - start) / 1000;
}

export const readJson = (path) => JSON.parse(readFileSync(path, 'utf8'));

export const commitNow = () =>
  spawnSync('git', ['rev-parse', '--short', 'HEAD'], { cwd: root, encoding: 'utf8' }).stdout.trim();

/** Keeps a result beside this file. */
export function keep(name, result) {
  const commit = commitNow();
  const date = new Date().toISOString().slice(0, 10);
  const text = `${JSON.stringify({ date, commit, cell, ...result }, null, 2)}\n`;
  writeFileSync(join(root, 'tests/studies', `${name}.json`), text);
  process.stdout.write(text);
}
