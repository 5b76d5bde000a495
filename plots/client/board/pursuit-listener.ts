/** How far an answer is, and what whoever draws it is told while it is pursued. */

import type { Turn } from '../../../src/board/turn.ts';
import type { RuleFinding } from '../../../src/timing/rules/rule.ts';

export type Progress = 'computing' | 'preview' | 'refined';

export interface Listener {
  /** Something of the answer is new. */
  answered(): void;
  turned(turn: Turn): void;
  ruled(rules: readonly RuleFinding[]): void;
  /** An answer more of some draft is kept. */
  kept(): void;
  /** Stages that want an answer. */
  stages(): readonly (readonly string[])[];
  /** A fault of the program, not of the case. */
  failed(message: string): void;
}
