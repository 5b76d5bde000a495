/**
 * What a sweep wishes to have tried as advice: for the target and for power changes of the header and of the shape, of which
 * the best is followed; for a band moved either way the length that the estimate names.
 */

import type { SweepResult } from '../../engine/read/result.ts';
import type { NoAdvice, Purpose } from '../../findings/answers/advice.ts';
import { computedSpeeds, highest, rowFor } from '../../findings/curve.ts';
import { headerFor } from '../../findings/header-estimate.ts';
import type { SweepRow } from '../../findings/row.ts';
import type { WorkingBand } from '../../findings/working-band.ts';
import { type Change, type Changer, longerHeader, scaledLengths, shapeChanges } from './advice-changes.ts';

/** By how much advice moves a band [rpm]. */
const MOVE = 500;
/** Headers are tried for speeds so far from the target's, beside that which brings the best torque there [rpm]. */
const NEAR = 200;

/** A change, what the band's edges are expected at, as a ratio of now, and whether it is of the header alone. */
export interface Trialled {
  readonly change: Change;
  readonly ratio: number;
  readonly simple: boolean;
}

/** Changes to be tried for a purpose, the first first; one alone is run without a screen. */
export interface Wish {
  readonly purpose: Purpose;
  readonly rpm: number;
  readonly of: readonly Trialled[];
}

export interface Given {
  readonly changer: Changer;
  readonly result: SweepResult;
  readonly band: WorkingBand;
}

/** What is brought to the target is the speed of best torque; the header is tried by what the estimate says, and by less. */
export function targetWish({ changer, result }: Given): Wish | null {
  const { targetSpeed } = result.case.run;
  const row = targetSpeed === null ? null : rowFor(result.rows, targetSpeed);
  if (row === null) return null;
  const at = row.speed_rpm;
  const best = highest(result.rows, 'torque_nm')?.speed_rpm ?? at;
  const headers = (speeds: readonly number[]): readonly Trialled[] =>
    speeds.flatMap((from) => {
      const by = headerFor(result.outline, from, at);
      const change = by === null ? null : longerHeader(changer, by);
      return change === null ? [] : [{ change, ratio: at / from, simple: true }];
    });
  const near = headers([at + NEAR, at - NEAR]);
  const shapes = shapesOf(changer);
  const of = best === at ? [...near, ...shapes] : [...headers([best, (best + at) / 2]), ...shapes, ...near];
  return { purpose: 'target', rpm: at, of };
}

/** Power, where that is another question than the target: more than a step of speed away from it. */
export function outputWish({ changer, result }: Given): Wish | null {
  const row = highest(result.rows, 'power_kw');
  if (row === null) return null;
  const { targetSpeed } = result.case.run;
  if (targetSpeed !== null && Math.abs(row.speed_rpm - targetSpeed) <= computedSpeeds(result.rows).step)
    return null;
  return { purpose: 'output', rpm: row.speed_rpm, of: shapesOf(changer) };
}

const shapesOf = (changer: Changer): readonly Trialled[] =>
  shapeChanges(changer).map((change) => ({ change, ratio: 1, simple: false }));

/** The band moved by a header, or by all lengths where the header is too short for it. */
export function moveWish(given: Given, purpose: 'lower' | 'higher'): Wish | NoAdvice | null {
  const { changer, result, band } = given;
  const none = (why: NoAdvice['why']): NoAdvice => ({ for: purpose, why, tried: null, runs: 0, things: [] });
  const span = band.works ?? band.lands;
  if (span === null) return null;
  const way = purpose === 'lower' ? -1 : 1;
  if (way < 0 ? band.openBelow : band.openAbove) return none('open');
  const centre = (span.from + span.to) / 2;
  const ratio = (centre + way * MOVE) / centre;
  const by = headerFor(result.outline, centre, centre * ratio);
  const change =
    (by === null ? null : longerHeader(changer, by)) ??
    scaledLengths(changer, ['header', 'diffuser', 'belly', 'baffle'], 1 / ratio);
  if (change === null) return none('no change');
  const rpm = beside(result.rows, way < 0 ? span.from : span.to, way);
  return rpm === null ? none('open') : { purpose, rpm, of: [{ change, ratio, simple: true }] };
}

/** The first computed speed beyond an edge, where the pipe as it is no longer works [rpm]. */
function beside(rows: readonly SweepRow[], edge: number, way: 1 | -1): number | null {
  const beyond = rows.map((row) => row.speed_rpm).filter((speed) => (speed - edge) * way > 0);
  return beyond.length === 0 ? null : way > 0 ? Math.min(...beyond) : Math.max(...beyond);
}
