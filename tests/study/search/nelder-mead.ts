/**
 * Nelder and Mead's simplex (Computer Journal 7, 1965) with the parameters that suit more quantities (Gao & Han,
 * Comput. Optim. Appl. 51, 2012): for n quantities, reflection 1, expansion 1 + 2/n, contraction 3/4 - 1/(2n),
 * shrinkage 1 - 1/n. Points are kept in the unit cube by taking the nearest inside. For few quantities and a start
 * that is good already; it finds the next valley, not the deepest.
 *
 * A batch has one point, but for the first simplex and a shrinkage.
 */

import { clamped, type Point, type Search } from '../../../src/study/search/search.ts';

export interface NelderMeadSettings {
  /** First corner, in the unit cube. */
  readonly start: Point;
  /** Length of the first simplex's edges, as a share of the range. */
  readonly edge: number;
  readonly mostEvaluations: number;
  /** Ends when the corners' values differ by no more than `valueTolerance` and they lie within `pointTolerance`. */
  readonly valueTolerance: number;
  readonly pointTolerance: number;
}

interface Corner {
  readonly point: Point;
  readonly value: number;
}

export function* nelderMead(settings: NelderMeadSettings): Search {
  const n = settings.start.length;
  // For a single quantity the formulas would shrink to nothing; 1 and 2 are Nelder and Mead's own parameters.
  const m = Math.max(n, 2);
  const [expansion, contraction, shrinkage] = [1 + 2 / m, 0.75 - 1 / (2 * m), 1 - 1 / m];
  const first = firstSimplex(settings.start, settings.edge);
  let evaluations = first.length;
  let corners = sorted(cornersOf(first, yield first));
  while (evaluations < settings.mostEvaluations) {
    if (hasEnded(corners, settings)) return 'the values do not change any more';
    const best = corners[0] as Corner;
    const worst = corners[n] as Corner;
    const centre = centreOf(corners.slice(0, n));
    const reach = (share: number): Point =>
      clamped(centre.map((c, i) => c + share * (c - (worst.point[i] as number))));

    const reflected = cornerOf(reach(1), yield [reach(1)]);
    evaluations += 1;
    let next: Corner | null = null;
    if (reflected.value < best.value) {
      const expanded = cornerOf(reach(expansion), yield [reach(expansion)]);
      evaluations += 1;
      next = expanded.value < reflected.value ? expanded : reflected;
    } else if (reflected.value < (corners[n - 1] as Corner).value) {
      next = reflected;
    } else {
      const outside = reflected.value < worst.value;
      const place = reach(outside ? contraction : -contraction);
      const contracted = cornerOf(place, yield [place]);
      evaluations += 1;
      const better = outside ? contracted.value <= reflected.value : contracted.value < worst.value;
      next = better ? contracted : null;
    }
    if (next !== null) {
      corners = sorted([...corners.slice(0, n), next]);
      continue;
    }
    const shrunk = corners
      .slice(1)
      .map(({ point }) => point.map((x, i) => mixed(best.point[i] as number, x, shrinkage)));
    corners = sorted([best, ...cornersOf(shrunk, yield shrunk)]);
    evaluations += n;
  }
  return 'the evaluations allowed are used up';
}

/** The start, and for each quantity a corner moved into the cube along it. */
function firstSimplex(start: Point, edge: number): readonly Point[] {
  const inside = clamped(start);
  const moved = inside.map((_, axis) =>
    inside.map((x, i) => (i !== axis ? x : x + edge <= 1 ? x + edge : Math.max(0, x - edge))),
  );
  return [inside, ...moved];
}

function hasEnded(corners: readonly Corner[], settings: NelderMeadSettings): boolean {
  const best = corners[0] as Corner;
  const worst = corners.at(-1) as Corner;
  const size = Math.max(
    ...corners.map(({ point }) => Math.max(...point.map((x, i) => Math.abs(x - (best.point[i] as number))))),
  );
  return worst.value - best.value <= settings.valueTolerance && size <= settings.pointTolerance;
}

function centreOf(corners: readonly Corner[]): Point {
  const first = (corners[0] as Corner).point;
  return first.map(
    (_, i) => corners.reduce((sum, { point }) => sum + (point[i] as number), 0) / corners.length,
  );
}

function cornerOf(point: Point, values: readonly number[]): Corner {
  return { point, value: values[0] as number };
}

function cornersOf(points: readonly Point[], values: readonly number[]): readonly Corner[] {
  return points.map((point, k) => ({ point, value: values[k] as number }));
}

function sorted(corners: readonly Corner[]): readonly Corner[] {
  return [...corners].sort((a, b) => a.value - b.value);
}

function mixed(a: number, b: number, share: number): number {
  return a + share * (b - a);
}
