/** What aiming comes to. */

import type { SweepRow } from '../../findings/row.ts';
import type { Pipe } from '../../model/pipe.ts';
import type { BrokenRule } from './buildable.ts';
import type { Judged } from './objective.ts';
import type { Tried } from './search.ts';
import type { Sensitivity } from './sensitivities.ts';
import type { StepId } from './wish.ts';

/** A pipe with what it was judged by, on the case's own mesh. */
export interface AimedPipe {
  readonly pipe: Pipe;
  readonly rows: readonly SweepRow[];
  /** Null: it failed, or its score cannot be read. */
  readonly judged: Judged | null;
  /** Rules of thumb that it does not keep to. */
  readonly rules: readonly BrokenRule[];
}

/** A dimension of a step's pipe beside what it was [m]. */
export interface Dimension {
  /** `header`, `belly diameter` */
  readonly name: string;
  readonly before: number;
  readonly after: number;
}

/** What a step of the aim came to: the best pipe that so much change gives. */
export interface SteppedPipe extends AimedPipe {
  readonly id: StepId;
  /** Drafts that the step has computed, and why it ended. */
  readonly drafts: number;
  readonly end: string;
  /** Every dimension of the given pipe that it changes; null: it is another pipe, with other sections. */
  readonly dimensions: readonly Dimension[] | null;
  /** Mean torque with its header so much shorter and longer than drawn [Nm]; null: it failed. */
  readonly build: { readonly by: number; readonly less: number | null; readonly more: number | null };
}

export interface AimChange {
  readonly name: string;
  readonly start: number;
  readonly before: number;
  readonly after: number;
  readonly limit: string;
}

export interface AimResult {
  /** What the last step began with. */
  readonly startedFrom: 'handbook' | 'draft';
  /** Mean gas temperature found for the given pipe [K]. */
  readonly gasTemperature: number;
  readonly given: AimedPipe;
  readonly start: AimedPipe;
  /** From the least change to the most; the last is what `after` is. */
  readonly steps: readonly SteppedPipe[];
  readonly after: AimedPipe;
  readonly changes: readonly AimChange[];
  readonly sensitivities: readonly Sensitivity[];
  readonly history: readonly Tried[];
  readonly end: string;
  readonly limits: readonly string[];
}

/** An aim that comes to nothing; the message says why. */
export class AimFailure extends Error {
  override readonly name = 'AimFailure';
  readonly exitCode = 4;
}
