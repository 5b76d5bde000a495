/** What aiming is asked for, and what it comes to. */

import type { SweepRow } from '../../findings/row.ts';
import type { Case } from '../../model/case.ts';
import type { Pipe } from '../../model/pipe.ts';
import type { Constraints } from '../../model/study.ts';
import type { Judged } from './objective.ts';
import type { Tried } from './search.ts';
import type { Sensitivity } from './sensitivities.ts';

export interface AimWish {
  readonly subject: Case;
  readonly target: number;
  /** What the search starts from. */
  readonly from: 'handbook' | 'draft' | 'better';
  /** Paths of the quantities to move; empty: the usual ones. */
  readonly vary: readonly string[];
  readonly constraints: Constraints;
  readonly mostDrafts: number;
  /** Cell length of the search [m]. */
  readonly searchCell: number;
  readonly seed: number;
}

/** A pipe with what it was judged by, on the case's own mesh. */
export interface AimedPipe {
  readonly pipe: Pipe;
  readonly rows: readonly SweepRow[];
  /** Null: it failed, or its score cannot be read. */
  readonly judged: Judged | null;
}

export interface AimChange {
  readonly name: string;
  readonly start: number;
  readonly before: number;
  readonly after: number;
  readonly limit: string;
}

export interface AimResult {
  readonly startedFrom: 'handbook' | 'draft';
  /** Mean gas temperature found for the given pipe [K]. */
  readonly gasTemperature: number;
  readonly given: AimedPipe;
  readonly start: AimedPipe;
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
