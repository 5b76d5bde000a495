/** Judging pipes by an aim's wish: what a run gave, less what is to be paid for rules of thumb that the pipe misses. */

import type { Pipe } from '../../model/pipe.ts';
import type { DraftResult } from '../work/draft.ts';
import { beyondRules, brokenRules } from './buildable.ts';
import { type Judged, judge } from './objective.ts';
import type { AimWish } from './wish.ts';

/** Null: the pipe failed. */
export type Judge = (result: DraftResult, pipe: Pipe) => Judged | null;

/**
 * @param unit torque that costs are measured in [Nm]
 * @param base the pipe that is aimed; what it misses of a rule costs nothing
 */
export function judgeOf({ subject, target, rules }: AimWish, unit: number, base: Pipe): Judge {
  const { engine } = subject;
  const allowed = brokenRules({ engine, pipe: base });
  return (result, pipe) =>
    judge(result, { target, unit, beyond: rules ? beyondRules({ engine, pipe }, allowed) : 0 });
}
