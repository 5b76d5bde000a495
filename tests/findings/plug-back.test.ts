/** Ring: exact solution. The plug-back of returning waves of known shape. Closed forms derived here. */

import { describe, expect, test } from 'vitest';
import { readPlugBack } from '../../src/findings/plug-back.ts';

const STEP = 0.5;
const TURN = 720;
const AMBIENT = 1e5;
const CLOSES = 195;

/** A wave from its shape over degrees after exhaust opening, and where it is looked for. */
function readFound(shape: (deg: number) => number, from: number, to: number) {
  const found = read(shape, from, to);
  const known = ['onsetDeg', 'peakDeg', 'centroidDeg', 'endDeg', 'shareBeforeClosing'] as const;
  if (known.some((name) => found[name] === null)) throw new Error('no plug-back was found');
  return found as {
    readonly [K in keyof typeof found]: K extends 'otherCrestDeg'
      ? number | null
      : NonNullable<(typeof found)[K]>;
  };
}

function read(shape: (deg: number) => number, from: number, to: number) {
  const pressure = Float64Array.from({ length: TURN }, (_, k) => AMBIENT + shape(k * STEP));
  return readPlugBack(
    { pressure, stepDeg: STEP, reference: AMBIENT, closesDeg: CLOSES },
    { first: from, last: to },
  );
}

const halfSine =
  (from: number, to: number, height: number) =>
  (deg: number): number =>
    deg > from && deg < to ? height * Math.sin((Math.PI * (deg - from)) / (to - from)) : -1000;

describe('a half-sine of 60 degrees', () => {
  const found = readFound(halfSine(140, 200, 4e4), 150, 190);

  test('has its peak and its middle in the middle, its onset and its end at its feet', () => {
    expect(found.found).toBe(true);
    expect(found.peakDeg).toBeCloseTo(170, 6);
    expect(found.centroidDeg).toBeCloseTo(170, 6);
    // The feet lie within the sample in which the wave leaves the suction.
    expect(Math.abs(found.onsetDeg - 140)).toBeLessThan(STEP);
    expect(Math.abs(found.endDeg - 200)).toBeLessThan(STEP);
    expect(found.peakPressure).toBeCloseTo(AMBIENT + 4e4, 6);
    expect(found.otherCrestDeg).toBeNull();
  });

  test('has the share of its impulse before closing that the cosine says', () => {
    const exact = 0.5 * (1 - Math.cos((Math.PI * (CLOSES - 140)) / 60));
    expect(found.shareBeforeClosing).toBeCloseTo(exact, 3);
  });

  test('is preceded by its suction', () => {
    const dip = (deg: number): number => (deg > 60 && deg < 100 ? -3e4 : 0);
    const after = read((deg) => halfSine(140, 200, 4e4)(deg) + dip(deg), 150, 190);
    expect(after.suctionPressure).toBeCloseTo(AMBIENT - 31_000, 6);
    expect(after.suctionDeg).toBeGreaterThanOrEqual(60);
    expect(after.suctionDeg).toBeLessThanOrEqual(100);
  });
});

test('a triangle that leans has its middle a third of the way from its steep side', () => {
  // Up within a degree at 150, straight down to 210: the centroid of a right triangle.
  const lean = (deg: number): number => (deg >= 150 && deg <= 210 ? 4e4 * (1 - (deg - 150) / 60) : -1000);
  const found = readFound(lean, 150, 190);
  expect(Math.abs(found.centroidDeg - 170)).toBeLessThan(0.3);
  expect(found.peakDeg).toBeLessThan(found.centroidDeg);
});

test('a spike on the front of a broad crest does not move the peak', () => {
  const broad = halfSine(130, 210, 4e4);
  const spike = (deg: number): number => (Math.abs(deg - 145) < 1.2 ? 2e4 : 0);
  expect(Math.abs(readFound((deg) => broad(deg) + spike(deg), 140, 200).peakDeg - 170)).toBeLessThan(2);
});

describe('a wave of two crests', () => {
  const crest = (at: number, height: number) => (deg: number) => height * Math.exp(-(((deg - at) / 9) ** 2));
  const two = (low: number) => (deg: number) => crest(155, 4e4)(deg) + crest(200, low)(deg);

  test('all but equally high is said to have the other', () => {
    const found = readFound(two(3.95e4), 150, 205);
    expect(Math.abs(found.peakDeg - 155)).toBeLessThan(0.5);
    expect(Math.abs((found.otherCrestDeg ?? 0) - 200)).toBeLessThan(0.5);
    // And its middle is the mean of both by impulse.
    expect(Math.abs(found.centroidDeg - (155 * 4 + 200 * 3.95) / 7.95)).toBeLessThan(0.1);
  });

  test('of which one is lower is said to have one', () => {
    expect(read(two(3.6e4), 150, 205).otherCrestDeg).toBeNull();
  });
});

test('a wave that passes the end of the turn is read as one', () => {
  const found = read((deg) => halfSine(330, 390, 3e4)(deg < 180 ? deg + 360 : deg), 340, 375);
  expect(found.peakDeg).toBeCloseTo(360, 6);
  expect(found.centroidDeg).toBeCloseTo(360, 6);
  expect(found.shareBeforeClosing).toBe(0);
});

test('no compression where the baffle answers is no plug-back', () => {
  const found = read(() => -2e4, 150, 190);
  expect(found.found).toBe(false);
  expect([found.onsetDeg, found.peakDeg, found.centroidDeg, found.endDeg, found.shareBeforeClosing]).toEqual(
    Array(5).fill(null),
  );
});
