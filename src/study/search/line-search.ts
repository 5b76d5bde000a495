/**
 * A search along one quantity: even steps over its whole range, then half and half again of a step to both sides of the best.
 * All of a batch is asked for at once, as threads want it. It may miss a hump narrower than a step of the first pass.
 */

import type { Point, Search } from './search.ts';

export interface LineSettings {
  readonly mostEvaluations: number;
  /** Steps of the first pass. */
  readonly steps?: number;
  /** Ends when what is tried lies no further from the best than this share of the range. */
  readonly pointTolerance: number;
}

export function* lineSearch({ mostEvaluations, steps = 8, pointTolerance }: LineSettings): Search {
  const count = Math.min(steps + 1, mostEvaluations);
  if (count < 1) return 'the evaluations allowed are used up';
  const even = Array.from({ length: count }, (_, k): Point => [count === 1 ? 0.5 : k / (count - 1)]);
  let [at, value] = leastOf(even, yield even);
  let evaluations = count;
  for (let by = 0.5 / Math.max(1, count - 1); by > pointTolerance; by /= 2) {
    const beside = [at - by, at + by].filter((x) => x >= 0 && x <= 1).map((x): Point => [x]);
    if (evaluations + beside.length > mostEvaluations) return 'the evaluations allowed are used up';
    const [nearer, less] = leastOf(beside, yield beside);
    evaluations += beside.length;
    if (less < value) [at, value] = [nearer, less];
  }
  return 'the points do not move any more';
}

/** The place of the least value and that value; the first of equals. */
function leastOf(points: readonly Point[], values: readonly number[]): readonly [number, number] {
  const least = Math.min(...values);
  return [points[values.indexOf(least)]?.[0] ?? 0.5, least];
}
