/**
 * Ring: identity. A few of the damages and lost supplies of `npm run study:journals`, others each day; the seed is in the name
 * of the test. The built program from end to end: the bytes of a run never broken, or the damage is refused in words.
 */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { randomSource } from '../../src/study/search/random.ts';
import { openTrials } from '../studies/journals/trials.mjs';

const folder = mkdtempSync(join(tmpdir(), 'echocone-journals-'));
const { trials, close } = openTrials(folder);
afterAll(() => {
  close();
  rmSync(folder, { recursive: true, force: true });
});

const seed = Number(process.env.ECHOCONE_SEED ?? Math.floor(Date.now() / 86_400_000));

describe(`seed ${seed}`, () => {
  test.each([
    ['sweep', 'damage'],
    ['sweep', 'loss'],
    ['overnight', 'damage'],
  ] as const)('%s: %s', async (verb, kind) => {
    const source = randomSource(seed, kind === 'damage' ? 1 : 2);
    for (const _ of kind === 'damage' ? [1, 2, 3] : [1]) {
      const trial = await trials[kind](verb, source.uniform());
      expect(kind === 'damage' ? ['same', 'refused'] : ['same'], JSON.stringify(trial)).toContain(trial.came);
    }
  });
});
