/**
 * Ring: exact solution. Waves that merge and part continuously: what is read of them never jumps where they do not. Shapes are
 * bell curves above a suction; their closed forms are derived here.
 */

import { describe, expect, test } from 'vitest';
import { humpsOf } from '../../src/findings/humps.ts';
import { type PlugBack, readPlugBack } from '../../src/findings/plug-back.ts';

const STEP = 0.5;
const AMBIENT = 1e5;
const WIDTH = 20;

/** A bell of a height and a width at half height, about a place [deg]. */
const bell =
  (at: number, height: number, width = WIDTH) =>
  (deg: number): number =>
    height * 2 ** -(((2 * (deg - at)) / width) ** 2);

function read(shape: (deg: number) => number): PlugBack {
  const pressure = Float64Array.from({ length: 720 }, (_, k) => AMBIENT + shape(k * STEP));
  return readPlugBack(
    { pressure, stepDeg: STEP, reference: AMBIENT, closesDeg: 195 },
    { first: 150, last: 190 },
  );
}

const angles = ['onsetDeg', 'centroidDeg', 'endDeg'] as const;

/** Largest step of an angle as a shape is morphed from 0 to 1 in so many equal steps [deg]. */
function largestStep(morph: (share: number) => (deg: number) => number, steps: number): number {
  const found = Array.from({ length: steps + 1 }, (_, k) => read(morph(k / steps)));
  return Math.max(
    ...angles.flatMap((name) =>
      found.slice(1).map((one, k) => Math.abs((one[name] as number) - (found[k]?.[name] as number))),
    ),
  );
}

/**
 * Whether steps shrink with those of the morph: of a jump they would not. With eight times the steps they shrink to an eighth,
 * and to 0.35, the root of that, where a foot goes over a dip that comes up through the surroundings.
 */
function isContinuous(morph: (share: number) => (deg: number) => number): boolean {
  return largestStep(morph, 400) < largestStep(morph, 50) / 2;
}

describe('never jumps where the wave does not', () => {
  test('as one wave catches up with another, from a dip below the surroundings to a shoulder', () => {
    const nearer = (share: number) => (deg: number) =>
      bell(165, 4e4)(deg) + bell(215 - 32 * share, 2.5e4)(deg) - 2e3;
    expect(isContinuous(nearer)).toBe(true);
    const [apart, half, whole] = [read(nearer(0)), read(nearer(0.65)), read(nearer(1))];
    expect(apart.beside?.counted).toBe(0);
    expect(half.beside?.counted).toBeGreaterThan(0.02);
    expect(half.beside?.counted).toBeLessThan(0.98);
    expect(whole.beside).toBeNull();
    // The middle moves by the other wave: without that there would be nothing to show.
    expect((whole.centroidDeg as number) - (apart.centroidDeg as number)).toBeGreaterThan(5);
  });

  test('as one of two waves apart takes over from the other', () => {
    const trade = (share: number) => (deg: number) =>
      bell(160, 4e4 - 1.6e4 * share)(deg) + bell(200, 2.4e4 + 1.6e4 * share)(deg) - 2e3;
    expect(isContinuous(trade)).toBe(true);
    const [first, second] = [read(trade(0)), read(trade(1))];
    // The side towards the other is lifted by its foot.
    expect(Math.abs((first.centroidDeg as number) - 160)).toBeLessThan(1);
    expect(Math.abs((second.centroidDeg as number) - 200)).toBeLessThan(1);
  });

  test('as a tail of ripples passes through the surroundings', () => {
    const rippled = (share: number) => (deg: number) =>
      bell(165, 4e4)(deg) + 400 * Math.sin(deg / 2) * (deg > 185 ? 1 : 0) + 1200 * (share - 0.5);
    const middles = Array.from({ length: 101 }, (_, k) => read(rippled(k / 100)).centroidDeg as number);
    expect(
      Math.max(...middles.slice(1).map((one, k) => Math.abs(one - (middles[k] as number)))),
    ).toBeLessThan(0.5);
  });
});

describe('two equal bells', () => {
  // Midway between them stands 2 x 2^-(r^2) of one, with r their distance in widths at half height.
  const widths = (persistence: number): number => Math.sqrt(Math.log2(2 / (1 - persistence)));
  const heightOf = (r: number) => (k: number) => {
    const pair = (deg: number): number => bell(170, 1)(deg) + bell(170 + r * WIDTH, 1)(deg);
    return pair(k * 0.05);
  };
  const counted = (r: number): number =>
    humpsOf(heightOf(r), [{ at: 170 * 20, share: 1 }], 1600).weight(Math.round((170 + r * WIDTH) * 20));

  test('are one wave at less than 1.2 widths, half at 1.4, two beyond 1.7', () => {
    expect([widths(0.25), widths(0.5), widths(0.75)].map((r) => Number(r.toFixed(1)))).toEqual([
      1.2, 1.4, 1.7,
    ]);
    expect(counted(widths(0.2))).toBe(1);
    // The foot of each under the crest of the other, 2^-(4 r^2) of it, is what the closed form leaves out.
    expect(Math.abs(counted(widths(0.5)) - 0.5)).toBeLessThan(0.02);
    expect(counted(widths(0.8))).toBe(0);
  });

  test('are said to merge in between, with where and how far', () => {
    // The second stands outside the angles in which a plug-back is looked for.
    const merging = read((deg) => bell(185, 4e4)(deg) + bell(185 + 1.4 * 30, 4e4, 40)(deg) * 0.99);
    expect(Math.abs((merging.beside?.deg ?? 0) - 227)).toBeLessThan(2);
    expect(merging.beside?.counted).toBeGreaterThan(0.02);
    expect(merging.beside?.counted).toBeLessThan(0.98);
  });
});

test('a crest beside a deep suction is read as a wave with feet and a middle, its peak between its feet', () => {
  // Above the surroundings for 4 degrees only: smoothed over 15 it is below them.
  const short = (deg: number): number => (Math.abs(deg - 170) <= 2 ? 2e3 : -3e4);
  const found = read(short);
  expect(found.found).toBe(true);
  const { onsetDeg, peakDeg, centroidDeg, endDeg } = found;
  expect(Math.abs((centroidDeg as number) - 170)).toBeLessThan(0.3);
  expect(endDeg as number).toBeGreaterThan(onsetDeg as number);
  expect(peakDeg as number).toBeGreaterThanOrEqual(onsetDeg as number);
  expect(peakDeg as number).toBeLessThanOrEqual(endDeg as number);
});
