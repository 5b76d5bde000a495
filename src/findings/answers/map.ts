/**
 * What a map says to the one who holds the file: at the wanted speed, which duration; for the duration as drawn, which
 * speed; what the next step of duration costs and buys; and where the echo is strongest, as found.
 */

import { runsOf, type SpeedSpan } from '../band.ts';
import { highest, nearest } from '../curve.ts';
import { lands, middleLead } from '../landing.ts';
import type { DurationPoint, SweepRow } from '../row.ts';
import { alikeAbout, crossings, type Extreme, extreme, greatest } from './duration-line.ts';
import { type EchoAnswer, echoAnswer } from './map-echo.ts';
import { LEAST_TORQUE, type Step, stepBetween } from './map-step.ts';

/** The best torque at one speed with the durations about it that are all but as good. */
export interface BestTorque extends Extreme {
  readonly speedRpm: number;
  readonly alike: { readonly from: number; readonly to: number; readonly lowest: number };
}

export interface MapAnswer {
  /** The speed looked at, and whether it is the nearest to the case's target or that of the best torque. */
  readonly speedRpm: number;
  readonly isTarget: boolean;
  /** The duration drawn, and that of the map nearest to it [deg]. */
  readonly askedDeg: number;
  readonly drawnDeg: number;
  /** Most torque of the whole map, and at the speed looked at. */
  readonly best: BestTorque | null;
  readonly bestTorque: BestTorque | null;
  readonly torqueAsDrawn: number | null;
  /** What the best gains on the drawn duration [Nm]; null: it is not known. Worth it: more than cycles vary by. */
  readonly gain: { readonly torque: number; readonly isWorthIt: boolean } | null;
  /** Durations at which the middle of the plug-back meets exhaust closing, straight between the map's [deg]. */
  readonly meetsDeg: readonly number[];
  /** Where it meets it at none: on which side it stays. */
  readonly side: 'before' | 'after';
  /** Unbroken runs of durations at which the wave lands, the widest first. */
  readonly landsDeg: readonly SpeedSpan[];
  /** For the duration as drawn: speed of most torque, speeds where the middle meets closing and where the wave lands. */
  readonly drawnBest: { readonly speedRpm: number; readonly torque: number } | null;
  readonly meetsRpm: readonly number[];
  readonly landsRpm: readonly SpeedSpan[];
  readonly longer: Step | null;
  readonly shorter: Step | null;
  readonly echo: EchoAnswer | null;
  /** Points at that speed, by duration. */
  readonly column: readonly DurationPoint[];
}

export interface MapQuestion {
  readonly targetSpeed: number | null;
  readonly drawnDurationDeg: number;
  /** Where the roof of a duration lies below that of no travel [m]. */
  readonly roofTravel: (durationDeg: number) => number;
}

const torqueOf = ({ row }: DurationPoint): number | null => row.torque_nm;

/** Reads a map, its points by duration and speed ascending. Null: no point was finished. */
export function mapAnswer(points: readonly DurationPoint[], asked: MapQuestion): MapAnswer | null {
  const first = points[0];
  if (first === undefined) return null;
  const { targetSpeed, drawnDurationDeg, roofTravel } = asked;
  const off = ({ durationDeg }: DurationPoint): number => Math.abs(durationDeg - drawnDurationDeg);
  const drawnDeg = points.reduce((a, b) => (off(b) < off(a) ? b : a)).durationDeg;
  const asDrawn = points.filter((p) => p.durationDeg === drawnDeg);
  const rowsAsDrawn = asDrawn.map(({ row }) => row);
  const drawnBest = highest(rowsAsDrawn, 'torque_nm');
  const rows = points.map(({ row }) => row);
  const speedRpm = (targetSpeed === null ? drawnBest : nearest(rows, targetSpeed))?.speed_rpm ?? 0;
  const column = atSpeed(points, speedRpm);
  const at = column.findIndex((p) => p.durationDeg === drawnDeg);
  const here = column[at];
  const step = (to: DurationPoint | undefined): Step | null =>
    here === undefined || to === undefined ? null : stepBetween(here, to, roofTravel);
  const bestTorque = bestOf(column, speedRpm);
  const torqueAsDrawn = here?.row.torque_nm ?? null;
  return {
    speedRpm,
    isTarget: targetSpeed !== null,
    askedDeg: drawnDurationDeg,
    drawnDeg,
    best: bestOfMap(points),
    bestTorque,
    torqueAsDrawn,
    gain: gainOf(bestTorque, torqueAsDrawn),
    meetsDeg: crossings(column, (p) => p.durationDeg, middleLead),
    side: column.every(({ row }) => (middleLead(row) ?? 0) < 0) ? 'after' : 'before',
    landsDeg: runsOf(
      column,
      ({ row }) => lands(row),
      (p) => p.durationDeg,
    ),
    drawnBest:
      drawnBest === null ? null : { speedRpm: drawnBest.speed_rpm, torque: drawnBest.torque_nm ?? 0 },
    meetsRpm: crossings(asDrawn, (p) => p.row.speed_rpm, middleLead),
    landsRpm: runsOf(rowsAsDrawn, lands, (row) => row.speed_rpm),
    longer: step(column[at + 1]),
    shorter: step(at > 0 ? column[at - 1] : undefined),
    echo: echoAnswer(column),
    column,
  };
}

const atSpeed = (points: readonly DurationPoint[], speedRpm: number): readonly DurationPoint[] =>
  points.filter(({ row }) => row.speed_rpm === speedRpm);

function bestOfMap(points: readonly DurationPoint[]): BestTorque | null {
  const best = greatest(points, torqueOf);
  if (best === null) return null;
  const { speed_rpm: speedRpm }: SweepRow = best.row;
  return bestOf(atSpeed(points, speedRpm), speedRpm);
}

function bestOf(column: readonly DurationPoint[], speedRpm: number): BestTorque | null {
  const best = extreme(column, torqueOf);
  return best === null ? null : { speedRpm, ...best, alike: alikeAbout(column, best) };
}

function gainOf(best: Extreme | null, asDrawn: number | null): MapAnswer['gain'] {
  if (best === null || asDrawn === null) return null;
  const torque = best.value - asDrawn;
  return { torque, isWorthIt: torque >= LEAST_TORQUE * asDrawn };
}
