/** What aiming is asked for. */

import type { Case } from '../../model/case.ts';
import type { Constraints } from '../../model/study.ts';

export interface AimWish {
  readonly subject: Case;
  readonly target: number;
  /** What the search starts from. */
  readonly from: 'handbook' | 'draft' | 'better';
  /** Paths of the quantities to move; empty: the usual ones. */
  readonly vary: readonly string[];
  readonly constraints: Constraints;
  /** Whether rules of thumb that are missed cost. */
  readonly rules: boolean;
  readonly mostDrafts: number;
  /** Cell length of the search [m]. */
  readonly searchCell: number;
  readonly seed: number;
}

/** A step of an aim: what of the pipe it may change. */
export type StepId = 'header' | 'header and baffle' | 'all' | 'asked';
