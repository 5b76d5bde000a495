/** Numbers to significant digits, against the language's own `toPrecision`. Ring: identity. */

import { expect, test } from 'vitest';
import { significant } from '../../src/findings/significant.ts';
import { randomSource } from '../../src/study/search/random.ts';

test('are those of toPrecision, of any size and sign', () => {
  const random = randomSource(7);
  for (let k = 0; k < 20_000; k++) {
    const value =
      (random.uniform() < 0.5 ? -1 : 1) * random.uniform() * 10 ** Math.floor(40 * random.uniform() - 20);
    const digits = 2 + Math.floor(6 * random.uniform());
    expect(significant(value, digits), `${value} to ${digits}`).toBe(Number(value.toPrecision(digits)));
  }
});

test.each([0, 1, 10, 1000, 1e5, 99_999.6, 9.9999e-7, 0.001, 1e30, -1e-30, 123_456_789])(
  '%s to five digits',
  (value) => {
    expect(significant(value, 5)).toBe(Number(value.toPrecision(5)));
  },
);

test('what is no number stays none', () => {
  expect(significant(Number.NaN, 3)).toBeNaN();
  expect(significant(Number.NEGATIVE_INFINITY, 3)).toBe(Number.NEGATIVE_INFINITY);
});
