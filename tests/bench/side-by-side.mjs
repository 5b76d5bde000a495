// What a second core is worth on this machine: a march that is compiled already, in two processes that share nothing, beside one
// alone. They use the same caches and memory, so two take a little longer than one. A sweep on two threads saves less than this:
// each thread compiles the march for itself, which a sweep on one thread leaves to the other core, and its start and page are one's.

import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { demoEngine, median } from './march-rate.mjs';

const SPEED = 10_000;
const MARCHES = { warm: 2, counted: 6 };
const ROUNDS = 3;
const self = fileURLToPath(import.meta.url);

/** Marches in a process of its own; seconds that it took once compiled. */
async function march(caseFile) {
  const { stdout } = await promisify(execFile)(process.execPath, [self, caseFile]);
  return Number(stdout);
}

/** Time of two threads over one that this machine allows [-], the median of some rounds. */
export async function leastOfTwoOverOne(caseFile) {
  const ratios = [];
  for (let round = 0; round < ROUNDS; round++) {
    const alone = await march(caseFile);
    const both = await Promise.all([march(caseFile), march(caseFile)]);
    ratios.push(Math.max(...both) / (2 * alone));
  }
  return median(ratios);
}

if (process.argv[1] === self) {
  const marches = async (count) => {
    for (let k = 0; k < count; k++) await demoEngine(process.argv[2], SPEED, 'auto');
  };
  await marches(MARCHES.warm);
  const begun = process.hrtime.bigint();
  await marches(MARCHES.counted);
  process.stdout.write(String(Number(process.hrtime.bigint() - begun) / 1e9));
}
