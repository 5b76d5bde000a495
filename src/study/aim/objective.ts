/**
 * What aiming is after: the mean torque over the target ± `BAND`, with the peak of the plug-back at the target between
 * transfer closing and exhaust closing. A degree outside costs `COST` of the torque of the pipe that the search started
 * from, so that the search finds its way back in.
 */

import type { DraftResult } from '../draft.ts';
import { type ReadRow, scoreOf } from '../score.ts';

/** Half the band round the target [rpm]. */
export const BAND = 250;
/** Cost of a degree outside the window, over the torque of the start. */
const COST = 0.02;
/** Degrees outside that count where no plug-back is found. */
const LOST = 40;

export interface Judged {
  /** What the search maximises [Nm]. */
  readonly score: number;
  /** Mean torque over the band [Nm]. */
  readonly torque: number;
  /** At the target: lead of the plug-back, and how far its peak is outside the window [deg]. */
  readonly leadDeg: number | null;
  readonly outsideDeg: number;
}

/** Speeds that a pipe is judged by [rpm]. */
export function judgedSpeeds(target: number): readonly number[] {
  return [target - BAND, target, target + BAND];
}

/** Null: the draft failed. */
export function judge(result: DraftResult, target: number, unit: number): Judged | null {
  if (!result.ok) return null;
  const mean = scoreOf(
    [{ kind: 'averageTorque', from: target - BAND, to: target + BAND, weight: 1 }],
    result.rows,
  );
  const row = result.rows.find((one) => one.speed_rpm === target);
  if (!mean.ok || row === undefined) return null;
  const leadDeg = leadOf(row);
  const outsideDeg = leadDeg === null ? LOST : outside(row, leadDeg);
  return { score: mean.score - COST * unit * outsideDeg, torque: mean.score, leadDeg, outsideDeg };
}

function leadOf(row: ReadRow): number | null {
  const lead = row.plugback_lead_deg;
  return typeof lead === 'number' && Number.isFinite(lead) ? lead : null;
}

/** How far the peak lies outside transfer closing to exhaust closing [deg]. */
function outside(row: ReadRow, leadDeg: number): number {
  const window = (row.exhaust_closes_deg ?? 0) - (row.transfers_close_deg ?? 0);
  return Math.max(0, -leadDeg, leadDeg - window);
}
