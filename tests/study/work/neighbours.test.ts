/** Ring: identity. Speeds in groups: none lost, none twice, in their order; the last ones alone, so that no thread waits for long. */

import { expect, test } from 'vitest';
import { neighbours } from '../../../src/study/work/run-sweep.ts';

test.each([1, 2, 7, 25, 60])('%i speeds', (count) => {
  const speeds = Array.from({ length: count }, (_, k) => 7500 + 250 * k);
  const groups = neighbours(speeds);
  expect(groups.flat()).toEqual(speeds);
  expect(Math.max(...groups.map(({ length }) => length))).toBeLessThanOrEqual(3);
  for (const group of groups.slice(-Math.min(3, count))) expect(group).toHaveLength(1);
});
