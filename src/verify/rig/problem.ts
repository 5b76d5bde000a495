/**
 * A problem with a known answer: what is computed on a mesh of n cells, and how its error is judged. A problem is a pure
 * function of n, so its runs may be done on any thread.
 */

/** The five rings of verification. */
export type Ring = 'identity' | 'exact solution' | 'observed order' | 'conservation' | 'regression';

/** Computed over exact, for the page. */
export interface Comparison {
  readonly title: string;
  /** What to look at. */
  readonly read: string;
  readonly xName: string;
  readonly yName: string;
  readonly computed: { readonly x: readonly number[]; readonly y: readonly number[] };
  readonly exact: { readonly x: readonly number[]; readonly y: readonly number[] };
}

/** What one run of a problem gives. */
export interface Measure {
  /** The error, in the unit of the problem's `quantity`; the largest of several. */
  readonly error: number;
  readonly comparison?: Comparison;
}

export interface Problem {
  readonly name: string;
  readonly ring: Ring;
  /** Book or paper, or `derived here`, or `value from memory`, or `common practice, no source`. */
  readonly source: string;
  /** What the error is of, with its unit. */
  readonly quantity: string;
  /** Meshes to run, each twice the one before; one where refinement means nothing. */
  readonly cells: readonly number[];
  /** Which of the meshes the bound is for. */
  readonly judged: number;
  /** Largest error on that mesh. */
  readonly bound: number;
  /** Least observed order between the first and the last mesh, where one is due. */
  readonly order?: number;
  readonly note?: string;
  readonly run: (cells: number) => Measure;
}
