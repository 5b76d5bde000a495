/**
 * Ring: exact solution. Two opposed waves in one pipe, air at 20 degC: pressure and velocity of both together, split again into
 * the two. Source: superposition of waves, Blair, Design and Simulation of Two-Stroke Engines (1996), chapter 2 (from memory);
 * the rows recomputed.
 */

import { describe, expect, test } from 'vitest';
import { splitWaves } from '../../src/findings/waves.ts';

const GAMMA = 1.4;
const REST = 343.1143;
const REFERENCE = 101_325;

describe('the waves at a place', () => {
  // Pressure ratios of the waves to the right and to the left, of both together, and the velocity [m/s].
  test.each([
    [1.2, 0.8, 0.96561, 99.0966],
    [1.2, 1.2, 1.43335, 0],
    [0.8, 0.8, 0.635314, 0],
    [1.5, 0.7, 1.071815, 187.5312],
  ])('of %s and %s', (right, left, both, velocity) => {
    const soundSpeed = REST * both ** ((GAMMA - 1) / (2 * GAMMA));
    const out = new Float64Array(2);
    splitWaves(both * REFERENCE, velocity, soundSpeed, GAMMA, REFERENCE, out);
    expect(out[0]! / REFERENCE).toBeCloseTo(right, 5);
    expect(out[1]! / REFERENCE).toBeCloseTo(left, 5);
  });

  test('are none in gas at rest under the reference', () => {
    const out = new Float64Array(2);
    splitWaves(REFERENCE, 0, REST, GAMMA, REFERENCE, out);
    expect([...out]).toEqual([REFERENCE, REFERENCE]);
  });
});
