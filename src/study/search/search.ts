/**
 * A search for the least value of a function that is costly and has no derivatives. A search is a generator: it asks
 * for the values of a batch of points and is told them, in the order of the points. It knows nothing of threads or
 * journals; since it is a function of its settings and of what it was told, a broken-off search is resumed by telling
 * it the same values again.
 *
 * Points are in the unit cube, each quantity scaled to its range by the caller. A point that has no value (a draft
 * that failed) is told as Infinity.
 */

export type Point = readonly number[];

/** Why the search has ended, in words. */
export type SearchEnd = string;

/** Yields points, takes their values. */
export type Search = Generator<readonly Point[], SearchEnd, readonly number[]>;

export interface Best {
  readonly point: Point;
  readonly value: number;
}

export interface SearchOutcome {
  /** Null: no point had a value. */
  readonly best: Best | null;
  readonly end: SearchEnd;
  readonly evaluations: number;
}

/** Runs a search to its end. `valuesOf` gets each batch with its number; `tell` hears of every batch's best so far. */
export async function minimise(
  search: Search,
  valuesOf: (points: readonly Point[], batch: number) => Promise<readonly number[]>,
  tell: (best: Best | null, evaluations: number) => void = () => {},
): Promise<SearchOutcome> {
  let best: Best | null = null;
  let evaluations = 0;
  let step = search.next();
  for (let batch = 0; step.done !== true; batch += 1) {
    const points = step.value;
    const values = await valuesOf(points, batch);
    if (values.length !== points.length)
      throw new RangeError('A search was told too few or too many values.');
    points.forEach((point, index) => {
      const value = values[index]!;
      if (Number.isFinite(value) && (best === null || value < best.value)) best = { point, value };
    });
    evaluations += points.length;
    tell(best, evaluations);
    step = search.next(values.map((value) => (Number.isNaN(value) ? Number.POSITIVE_INFINITY : value)));
  }
  return { best, end: step.value, evaluations };
}

/** The nearest point of the unit cube. */
export function clamped(point: Point): Point {
  return point.map((x) => Math.min(1, Math.max(0, x)));
}
