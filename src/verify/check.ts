/** One problem, run on all its meshes and judged. */

import { problems } from './problem-list.ts';
import type { Comparison, Problem, Ring } from './rig/problem.ts';

export interface Check {
  readonly name: string;
  readonly ring: Ring;
  readonly source: string;
  readonly quantity: string;
  /** Meshes, and the error on each. */
  readonly cells: readonly number[];
  readonly errors: readonly number[];
  /** Observed order from the first mesh to the last; null where refinement means nothing. */
  readonly order: number | null;
  /** The bound in words. */
  readonly bound: string;
  readonly limit: number;
  readonly pass: boolean;
  readonly note?: string;
  /** Computed over exact on the mesh that is judged. */
  readonly comparison?: Comparison;
}

/** Runs the problem of a place in the list; the kind of work that the pool's threads do. */
export function runCheck(input: { readonly index: number }): Check {
  const problem = problems[input.index];
  if (problem === undefined) throw new RangeError(`there is no problem ${input.index}`);
  return judge(problem);
}

/** Runs a problem on its meshes. */
export function judge(problem: Problem): Check {
  const measures = problem.cells.map((cells) => problem.run(cells));
  const errors = measures.map((measure) => measure.error);
  const judged = errors[problem.judged]!;
  const order = observedOrder(errors);
  const comparison = measures[problem.judged]?.comparison;
  return {
    ...described(problem),
    errors,
    order,
    pass: judged <= problem.bound && (problem.order === undefined || (order ?? 0) >= problem.order),
    ...(comparison === undefined ? {} : { comparison: thinned(comparison) }),
  };
}

/** A problem whose run ended in an error. */
export function failedCheck(problem: Problem, message: string): Check {
  return { ...described(problem), errors: [], order: null, pass: false, note: message };
}

function described(problem: Problem) {
  const { name, ring, source, quantity, cells, bound, order, note } = problem;
  const at = cells.length > 1 ? ` at ${cells[problem.judged]} cells` : '';
  return {
    name,
    ring,
    source,
    quantity,
    cells,
    bound: `at most ${bound}${at}${order === undefined ? '' : `, order at least ${order}`}`,
    limit: bound,
    ...(note === undefined ? {} : { note }),
  };
}

/** Points of a curve that are kept for the page. */
const KEPT = 500;

function thinned(comparison: Comparison): Comparison {
  const thin = ({ x, y }: Comparison['exact']): Comparison['exact'] => {
    const stride = Math.ceil(x.length / KEPT);
    const kept = (values: readonly number[]): readonly number[] =>
      values
        .filter((_, i) => i % stride === 0 || i === x.length - 1)
        .map((value) => Number(value.toPrecision(7)));
    return { x: kept(x), y: kept(y) };
  };
  return { ...comparison, computed: thin(comparison.computed), exact: thin(comparison.exact) };
}

/** Mean order per halving of the cells; null where it cannot be had. */
export function observedOrder(errors: readonly number[]): number | null {
  const [first, last] = [errors[0], errors.at(-1)];
  if (errors.length < 2 || !first || !last) return null;
  const order = Math.log2(first / last) / (errors.length - 1);
  return Number.isFinite(order) ? order : null;
}
