/**
 * Rings: identity, and regression. Output of a cycle against the definitions of the textbooks (Heywood and Sher, The Two-Stroke
 * Cycle Engine, 1999, from memory), with the units worked by hand.
 */

import { describe, expect, test } from 'vitest';
import { outputOf } from '../../src/findings/output.ts';
import { resample } from '../../src/findings/resample.ts';

const input = {
  rpm: 12_000,
  displacement: 125e-6,
  stroke: 0.05,
  friction: { constant: 0.5e5, perSpeed: 100 },
  cylinderWork: 175,
  crankcaseWork: -6.25,
  delivered: 150e-6,
  trapped: 120e-6,
  trappedFresh: 108e-6,
  reference: 144e-6,
};
const found = outputOf(input);

test('mean pressures are work over displacement, less friction', () => {
  expect(found.imep).toBeCloseTo(14e5, 6);
  // 14 bar, less half a bar of pumping and 0.5 + 100 x 0.05 x 12 000 Pa = 1.1 bar of friction.
  expect(found.bmep).toBeCloseTo(12.4e5, 6);
});

test('power is torque times angular speed, and a two-stroke works every turn', () => {
  expect(found.power).toBeCloseTo((12.4e5 * 125e-6 * 12_000) / 60, 6);
  expect(found.torque * ((2 * Math.PI * 12_000) / 60)).toBeCloseTo(found.power, 6);
});

test('charging is delivery times trapping', () => {
  expect(found.deliveryRatio).toBeCloseTo(150 / 144, 12);
  expect(found.trappingEfficiency).toBeCloseTo(0.72, 12);
  expect(found.chargingEfficiency).toBeCloseTo(0.75, 12);
  expect(found.scavengingEfficiency).toBeCloseTo(0.9, 12);
  expect(found.chargingEfficiency).toBeCloseTo(
    (found.deliveryRatio as number) * (found.trappingEfficiency as number),
    12,
  );
});

describe('a share that cannot be is left empty', () => {
  const of = (delivered: number, trappedFresh: number) =>
    outputOf({ ...input, delivered, trapped: 200, trappedFresh });

  test.each([
    ['more retained than delivered', 100, 110],
    ['delivered below nothing', -3, 15],
    ['nothing delivered', 0, 15],
  ])('%s: no trapping efficiency', (_, delivered, trappedFresh) => {
    const { trappingEfficiency, chargingEfficiency } = of(delivered, trappedFresh);
    expect(trappingEfficiency).toBeNull();
    expect(chargingEfficiency).toBeGreaterThan(0);
  });

  test('delivered below nothing: no delivery ratio', () => {
    expect(of(-3, 15).deliveryRatio).toBeNull();
    expect(of(3, 2).deliveryRatio).toBeGreaterThan(0);
  });
});

test('samples at uneven angles come to an even grid, straight lines exactly, over the end of the turn too', () => {
  const deg = Float64Array.of(1, 90, 200, 359);
  const values = Float64Array.of(11, 100, 210, 369);
  const even = resample(deg, values, 4, 10);
  expect(even).toHaveLength(36);
  expect(even[5]).toBeCloseTo(60, 9);
  expect(even[30]).toBeCloseTo(310, 9);
  // From 359 to 361 the line falls from 369 to 11: half way at 360.
  expect(even[0]).toBeCloseTo(190, 9);
});
