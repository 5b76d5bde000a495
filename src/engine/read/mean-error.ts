/**
 * How well the mean of a series of related values is known: to about
 *
 *     s / sqrt(m),   s the standard deviation of the means of m blocks of n / m values
 *
 * The blocks are long enough to be hardly related: a slow wander shows in them, what alternates from value to value cancels
 * within one. They are of four and of six values, and the worse counts. Batch means: A. M. Law, Simulation Modeling and
 * Analysis, ch. 9 (from memory).
 */

import { meanOf } from './window.ts';

const BLOCKS = [4, 6] as const;

/** Standard error of the mean of a series, as a share of the mean [-]. */
export function errorOfMean(values: readonly number[]): number {
  const mean = meanOf(values);
  const errors = BLOCKS.map((length) => {
    const count = Math.floor(values.length / length);
    const means = Array.from({ length: count }, (_, k) => meanOf(values.slice(k * length, (k + 1) * length)));
    const variance = means.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (count - 1);
    return Math.sqrt(variance / count);
  });
  return Math.max(...errors) / Math.abs(mean);
}
