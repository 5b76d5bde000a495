/** Ring: identity. Values, means and bands of curves of which every reading is known. */

import { describe, expect, test } from 'vitest';
import { heldAbout, landingBands, runsOf } from '../../src/findings/band.ts';
import { atEndOfRange, type Curve, meanOver, rowFor, valueAt } from '../../src/findings/curve.ts';
import type { SweepRow } from '../../src/findings/row.ts';

const humps: Curve = [
  [1, 10],
  [2, 8],
  [3, 9.9],
  [4, 0],
];

describe('a band', () => {
  test('ends where the curve first falls below, not at a second hump', () => {
    // From 10 to 9 half-way to the next point.
    expect(heldAbout(humps, 1, 9)).toEqual({ from: 1, to: 1.5, openBelow: true, openAbove: false });
  });

  test('goes by the value at the speed asked about, between the points too', () => {
    // 9 at 1.5, level 8.5 a quarter further on.
    const band = heldAbout(humps, 1.5, 8.5);
    expect(band?.to).toBeCloseTo(1.75, 12);
    expect(band?.from).toBe(1);
  });

  test('is open at a gap: what lies beyond is not known', () => {
    const gap: Curve = [
      [1, 9.5],
      [2, 10],
      [3, null],
      [4, 2],
    ];
    expect(heldAbout(gap, 2, 9)).toEqual({ from: 1, to: 2, openBelow: true, openAbove: true });
  });

  test('is none where the curve is not at the level, or the level is not above nought', () => {
    expect(heldAbout(humps, 2, 9)).toBeNull();
    expect(heldAbout(humps, 9, 1)).toBeNull();
    expect(heldAbout([[1, -5]], 1, -4.5)).toBeNull();
  });
});

describe('between the computed speeds', () => {
  test('a value goes straight, and is none beyond them and beside a gap', () => {
    expect(valueAt(humps, 1.25)).toBeCloseTo(9.5, 12);
    expect(valueAt(humps, 4.5)).toBeNull();
    expect(valueAt(humps, 0.5)).toBeNull();
    expect(
      valueAt(
        [
          [1, null],
          [2, 4],
        ],
        1.5,
      ),
    ).toBeNull();
    expect(
      valueAt(
        [
          [1, null],
          [2, 4],
        ],
        2,
      ),
    ).toBe(4);
  });

  test('a mean is the integral, corners within the range included', () => {
    // Trapezes 10 to 8, 8 to 9.9, then down to 4.95 half a step on.
    expect(meanOver(humps, 1, 3.5)).toBeCloseTo((9 + 8.95 + 0.5 * 7.425) / 2.5, 12);
    expect(meanOver(humps, 0.5, 3)).toBeNull();
    expect(
      meanOver(
        [
          [1, 1],
          [2, null],
          [3, 1],
        ],
        1,
        3,
      ),
    ).toBeNull();
    expect(meanOver(humps, 2, 2)).toBeNull();
  });
});

const row = (speed_rpm: number, middle: number | null, share: number): SweepRow =>
  ({
    speed_rpm,
    transfers_close_deg: 246,
    exhaust_closes_deg: 277,
    plugback_centroid_deg: middle,
    plugback_share_before_closing: share,
  }) as SweepRow;

test('the wave lands over unbroken runs of speeds, the widest first', () => {
  const rows = [
    row(8000, 262, 0.6),
    row(8250, null, 0),
    row(8500, 262, 0.6),
    row(8750, 270, 0.5),
    row(9000, 276, 0.49),
  ];
  expect(landingBands(rows)).toEqual([
    { from: 8500, to: 8750 },
    { from: 8000, to: 8000 },
  ]);
  expect(runsOf([1, 2, 3], () => false, Number)).toEqual([]);
});

test('a speed is stood for by the nearest within half a step, and an end is an end', () => {
  const rows = [row(8000, 262, 0.6), row(8500, 262, 0.6)];
  expect(rowFor(rows, 8300)?.speed_rpm).toBe(8500);
  expect(rowFor(rows, 7750)?.speed_rpm).toBe(8000);
  expect(rowFor(rows, 7749)).toBeNull();
  expect(rowFor([], 8000)).toBeNull();
  expect(atEndOfRange(8500, { first: 8000, last: 8500, step: 500 })).toBe(true);
  expect(atEndOfRange(8250, { first: 8000, last: 8500, step: 500 })).toBe(false);
});
