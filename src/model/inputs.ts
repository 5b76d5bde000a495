/**
 * What is kept of each input for the reader: how it was written, and whether it was assumed.
 */

/** One input that the file did not state. */
export interface AssumedInput {
  /** Path in the case, `engine.passage.length`. */
  readonly path: string;
  /** The value as a reader would write it, with its unit. */
  readonly value: string;
  /** Why this value: one sentence, with its source or "common practice, no source". */
  readonly reason: string;
  /**
   * `quantity`: a physical value taken for want of a measurement; `absence`: a feature taken as not there (no chamfer, no
   * offset); `setting`: how the computation is run.
   */
  readonly sort: 'quantity' | 'absence' | 'setting';
}

/** One input as it was used: stated by the file or an override, or assumed. */
export interface UsedInput {
  /** Path in the case, `pipe.sections.header.length`. */
  readonly path: string;
  /** The value as written, with its unit. */
  readonly value: string;
  readonly assumed: boolean;
  /** Where a measuring error stands behind it, `54 mm ± 0.05 mm`: number and error in the unit that it is written in. */
  readonly measured?: Measured;
}

export interface Measured {
  readonly number: number;
  readonly error: number;
  readonly unit: string;
}
