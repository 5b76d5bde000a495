/** Residual gas and ignition over speed. Ring: identity, against published fits. */

import { describe, expect, test } from 'vitest';
import { burnStart } from '../../src/timing/ignition.ts';
import { completenessFactor, durationFactor } from '../../src/timing/residual.ts';

describe('a burn with residual gas', () => {
  test('lasts longer as the laminar burning velocity falls, 1 - 2.1 f (Metghalchi & Keck 1982, value from memory)', () => {
    expect(durationFactor(0.1, 0.1)).toBe(1);
    expect(durationFactor(0.2, 0.1)).toBeCloseTo(0.79 / 0.58, 12);
    expect(durationFactor(0, 0.1)).toBeCloseTo(0.79, 12);
  });

  test('is followed up to a residual of 0.3 and held beyond', () => {
    expect(durationFactor(0.45, 0.1)).toBe(durationFactor(0.3, 0.1));
    expect(durationFactor(-0.01, 0.1)).toBe(durationFactor(0, 0.1));
  });

  // Blair 1996, value from memory: the fit's own values, to the digits stated, over that at 0.9.
  test.each([
    [0.51, 0.729],
    [0.6, 0.85],
    [0.7, 0.872],
    [0.8, 0.903],
    [0.9, 0.994],
  ])(
    'of a charge scavenged to %s releases %s of its heat, before it is taken over that at 0.9',
    (se, share) => {
      expect(Math.abs(completenessFactor(se) * 0.994 - share)).toBeLessThan(1.5e-3);
    },
  );

  test('releases no more than a well scavenged one, and no less than at the end of the fit', () => {
    expect(completenessFactor(0.97)).toBe(1);
    expect(completenessFactor(0.3)).toBe(completenessFactor(0.51));
  });
});

test('an ignition curve is straight between its points and held beyond them', () => {
  const start = [
    { rpm: 8000, deg: -18 },
    { rpm: 10_000, deg: -14 },
    { rpm: 12_000, deg: -6 },
  ];
  expect(burnStart({ start }, 6000)).toBe(-18);
  expect(burnStart({ start }, 9000)).toBe(-16);
  expect(burnStart({ start }, 10_000)).toBe(-14);
  expect(burnStart({ start }, 11_500)).toBe(-8);
  expect(burnStart({ start }, 14_000)).toBe(-6);
  expect(burnStart({ start: [{ rpm: 0, deg: -14 }] }, 9000)).toBe(-14);
});
