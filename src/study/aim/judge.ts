/** Judging pipes by an aim's wish: what a run gave, less what is to be paid for rules of thumb that the pipe misses. */

import type { Pipe } from '../../model/pipe.ts';
import type { DraftResult } from '../work/draft.ts';
import { beyondRules } from './buildable.ts';
import { type Judged, judge } from './objective.ts';
import type { AimWish } from './wish.ts';

/** Null: the pipe failed. */
export type Judge = (result: DraftResult, pipe: Pipe) => Judged | null;

/** @param unit torque that costs are measured in [Nm] */
export function judgeOf({ subject, target, rules }: AimWish, unit: number): Judge {
  const { engine } = subject;
  return (result, pipe) => judge(result, { target, unit, beyond: rules ? beyondRules({ engine, pipe }) : 0 });
}
