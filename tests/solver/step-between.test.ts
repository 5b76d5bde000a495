/**
 * Ring: regression. What is lost at a sharp edge between two ducts. The contraction of a stream of water into a narrower pipe as
 * Weisbach measured it, as texts on fluid mechanics print it (values from memory).
 */

import { describe, expect, test } from 'vitest';
import { stepBetween, venaContracta } from '../../solver/index.ts';
import { straight } from './constant-gamma.ts';

describe('the contraction over a sharp edge', () => {
  // Area ratio, coefficient.
  test.each([
    [0.1, 0.624],
    [0.2, 0.632],
    [0.3, 0.643],
    [0.4, 0.659],
    [0.5, 0.681],
    [0.6, 0.712],
    [0.7, 0.755],
    [0.8, 0.813],
    [0.9, 0.892],
    [1, 1],
  ])('into %s of the area is %s', (ratio, coefficient) => {
    // The cubic misses the table by less than the table's own scatter among authors.
    expect(Math.abs(venaContracta(ratio) - coefficient)).toBeLessThan(0.012);
  });

  test('is that of the narrower duct over the wider, whichever comes first', () => {
    const wide = straight('wide', 1, 0.06, 10);
    const narrow = straight('narrow', 1, 0.03, 10);
    const there = stepBetween(wide.right, narrow.left);
    const back = stepBetween(narrow.right, wide.left);
    expect(there.contraction).toBeCloseTo(0.63 + 0.37 / 64, 12);
    expect(back.contraction).toBe(there.contraction);
    expect([there.first, there.second]).toEqual([wide.right, narrow.left]);
  });
});
