/**
 * What of the measuring itself is left free: the factor of a dynamometer, the offset of an angle. Each is found like an input
 * of the engine, by a normal score within its range.
 */

import { valueOfScore } from '../ensemble/spread.ts';

export interface Looseness {
  readonly name: string;
  readonly unit: 'deg' | '';
  readonly range: readonly [from: number, to: number];
  readonly reason: string;
}

/** A chain, gears and a tyre take some to fifteen per cent; a dynamometer may show some per cent too much. Common practice, no source. */
export const FACTOR: readonly [number, number] = [0.85, 1.05];
/** About the angle at which trace and prediction lie best on each other [deg]. */
export const OFFSET = 12;

/** A value at a normal score, all of the range alike. */
export function looseAt({ range: [from, to] }: Looseness, score: number): number {
  return valueOfScore({ spread: { shape: 'uniform', from, to }, shares: [0, 1] }, score);
}
