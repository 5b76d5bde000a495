/**
 * Which quantity the score depends on most: the share of the score's variation that goes with each quantity alone. A
 * quantity that works only together with another shows little here.
 */

import { correlationRatio } from '../search/correlation-ratio.ts';

export interface Importance {
  readonly name: string;
  readonly share: number;
}

/** Fewest drafts that tell anything. */
const LEAST = 12;

/** `values[draft][quantity]` and the scores of the same drafts. */
export function importanceOf(
  names: readonly string[],
  values: readonly (readonly number[])[],
  scores: readonly number[],
): readonly Importance[] {
  if (scores.length < LEAST) return [];
  return names.map((name, axis) => {
    const column = values.map((row) => row[axis]!);
    return { name, share: correlationRatio(column, scores) };
  });
}
