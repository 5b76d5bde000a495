/**
 * What aiming is after: the mean torque over the target ± `BAND`, with the plug-back at the target landing between
 * transfer closing and exhaust closing. It is judged by its middle, the centroid of its impulse, as the pages judge it:
 * the peak of a flat-topped wave jumps from crest to crest where the wave itself does not. A degree outside costs `COST`
 * of the torque of the pipe that the search started from, so that the search finds its way back in; a rule of thumb missed
 * by a share costs `BEYOND` times that share.
 */

import { lands, middleLead, outsideWindow } from '../../findings/landing.ts';
import type { DraftResult } from '../work/draft.ts';
import { scoreOf } from '../work/score.ts';

/** Half the band round the target [rpm]: a mean over less goes to whoever stands just before an edge. Judgement, no source. */
export const BAND = 500;
/** Cost of a degree outside the window, over the torque of the start. */
const COST = 0.02;
/** Cost of a rule of thumb that is missed, for each share of its limit, over the torque of the start. Judgement, no source. */
const BEYOND = 0.5;
/** Degrees outside that count where no plug-back is found. */
const LOST = 40;

export interface Judged {
  /** What the search maximises [Nm]. */
  readonly score: number;
  /** Mean torque over the band [Nm]. */
  readonly torque: number;
  /** At the target: exhaust closing less the middle of the plug-back, and how far that is outside the window [deg]. */
  readonly middleLeadDeg: number | null;
  readonly outsideDeg: number;
  /** Whether the wave lands there: its middle in the window and half its impulse in time. */
  readonly lands: boolean;
}

export interface Judgement {
  readonly target: number;
  /** Torque that costs are measured in [Nm]. */
  readonly unit: number;
  /** Shares by which the pipe misses rules of thumb, together [-]. */
  readonly beyond?: number;
}

/** Speeds that a pipe is judged by [rpm]. */
export function judgedSpeeds(target: number): readonly number[] {
  return [target - BAND, target, target + BAND];
}

/** Null: the draft failed. */
export function judge(result: DraftResult, { target, unit, beyond = 0 }: Judgement): Judged | null {
  if (!result.ok) return null;
  const mean = scoreOf(
    [{ kind: 'averageTorque', from: target - BAND, to: target + BAND, weight: 1 }],
    result.rows,
  );
  const row = result.rows.find((one) => one.speed_rpm === target);
  if (!mean.ok || row === undefined) return null;
  const outsideDeg = outsideWindow(row) ?? LOST;
  return {
    score: mean.score - unit * (COST * outsideDeg + BEYOND * beyond),
    torque: mean.score,
    middleLeadDeg: middleLead(row),
    outsideDeg,
    lands: lands(row),
  };
}
