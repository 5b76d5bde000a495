// What a second core is worth on this machine: the same march in two processes that share nothing, beside one alone. Where the cores
// are halves of one, or neighbours use their caches, two take longer than one, and no program on two threads can do better.

import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { demoEngine } from './march-rate.mjs';

const SPEED = 10_000;
const MARCHES = 3;
const ROUNDS = 3;
const self = fileURLToPath(import.meta.url);

/** Marches in a process of its own; seconds that it took. */
async function march(caseFile) {
  const { stdout } = await promisify(execFile)(process.execPath, [self, caseFile]);
  return Number(stdout);
}

/** Least time of two threads over one that this machine allows [-]; the best of some rounds. */
export async function leastOfTwoOverOne(caseFile) {
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < ROUNDS; round++) {
    const alone = await march(caseFile);
    const both = await Promise.all([march(caseFile), march(caseFile)]);
    least = Math.min(least, Math.max(...both) / (2 * alone));
  }
  return least;
}

if (process.argv[1] === self) {
  const begun = process.hrtime.bigint();
  for (let k = 0; k < MARCHES; k++) await demoEngine(process.argv[2], SPEED, 'auto');
  process.stdout.write(String(Number(process.hrtime.bigint() - begun) / 1e9));
}
