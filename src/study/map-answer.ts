/**
 * What a map says to the one who holds the file: at the wanted speed, which duration; for the duration as drawn, which
 * speed; what the next step of duration costs and buys; and where the echo is strongest, as found.
 */

import type { SweepRow } from '../findings/row.ts';
import type { MapPoint } from './map.ts';

export interface Span {
  readonly from: number;
  readonly to: number;
}

/** What one row has more than another. */
export interface Step {
  readonly fromDeg: number;
  readonly toDeg: number;
  readonly leadDeg: number;
  readonly torque: number;
  /** Packed mass over the trapped mass [-]. */
  readonly packed: number;
  /** Cylinder pressure at transfer opening [bar]. */
  readonly openingBar: number;
  readonly echoGain: number;
}

export interface Extreme {
  readonly durationDeg: number;
  readonly value: number;
  /** At the first or the last duration of the map: the true one may lie beyond. */
  readonly atEdge: boolean;
}

export interface MapAnswer {
  /** The speed looked at, and whether it is the nearest to the case's target or that of the best torque. */
  readonly speedRpm: number;
  readonly isTarget: boolean;
  /** Duration of the map nearest to the one drawn [deg]. */
  readonly drawnDeg: number;
  readonly bestTorque: Extreme | null;
  readonly bestTorqueAsDrawn: number;
  /** Durations at which the plug-back's peak meets exhaust closing, straight between the map's [deg]. */
  readonly meetsDeg: readonly number[];
  /** Durations at which the wave lands as wanted; null: none. */
  readonly landsDeg: Span | null;
  /** For the duration as drawn: speed of most torque, speeds where the peak meets closing and where the wave lands. */
  readonly drawnBest: { readonly speedRpm: number; readonly torque: number } | null;
  readonly meetsRpm: readonly number[];
  readonly landsRpm: Span | null;
  readonly longer: Step | null;
  readonly shorter: Step | null;
  readonly echo: {
    readonly most: Extreme;
    readonly least: Extreme;
    /** Gain of the most over that at the first and at the last duration, the lesser of the two; 0 at an edge. */
    readonly overEdges: number;
  } | null;
  /** Points at that speed, by duration. */
  readonly column: readonly MapPoint[];
}

/** Reads a map. `lands` says whether the wave lands as wanted. Null: no point was finished. */
export function readMap(
  points: readonly MapPoint[],
  asked: { readonly targetSpeed: number | null; readonly drawnDurationDeg: number },
  lands: (row: SweepRow) => boolean,
): MapAnswer | null {
  if (points.length === 0) return null;
  const drawnDeg = nearest(
    points.map((p) => p.durationDeg),
    asked.drawnDurationDeg,
  );
  const asDrawn = points.filter((p) => p.durationDeg === drawnDeg);
  const drawnBest = most(asDrawn, (p) => p.row.torque_nm);
  const { targetSpeed } = asked;
  const speedRpm =
    targetSpeed === null
      ? (drawnBest?.row.speed_rpm ?? 0)
      : nearest(
          points.map((p) => p.row.speed_rpm),
          targetSpeed,
        );
  const column = points.filter((p) => p.row.speed_rpm === speedRpm);
  const at = column.findIndex((p) => p.durationDeg === drawnDeg);
  const step = (to: MapPoint | undefined): Step | null =>
    at < 0 || to === undefined ? null : stepBetween(column[at] as MapPoint, to);
  const gain = (p: MapPoint): number => p.row.echo_gain;
  const strongest = extreme(column, gain, 1);
  const weakest = extreme(column, gain, -1);
  const edges = [column[0], column.at(-1)].flatMap((p) => (p === undefined ? [] : [gain(p)]));
  const overEdges = (strongest?.value ?? 0) - Math.max(...edges.filter(Number.isFinite));
  return {
    speedRpm,
    isTarget: targetSpeed !== null,
    drawnDeg,
    bestTorque: extreme(column, (p) => p.row.torque_nm, 1),
    bestTorqueAsDrawn: column[at]?.row.torque_nm ?? Number.NaN,
    meetsDeg: crossings(column, (p) => p.durationDeg),
    landsDeg: spanOf(column, (p) => p.durationDeg, lands),
    drawnBest:
      drawnBest === null ? null : { speedRpm: drawnBest.row.speed_rpm, torque: drawnBest.row.torque_nm },
    meetsRpm: crossings(asDrawn, (p) => p.row.speed_rpm),
    landsRpm: spanOf(asDrawn, (p) => p.row.speed_rpm, lands),
    longer: step(column[at + 1]),
    shorter: step(at > 0 ? column[at - 1] : undefined),
    echo: strongest === null || weakest === null ? null : { most: strongest, least: weakest, overEdges },
    column,
  };
}

function nearest(values: readonly number[], wanted: number): number {
  return values.reduce((a, b) => (Math.abs(b - wanted) < Math.abs(a - wanted) ? b : a));
}

function most(points: readonly MapPoint[], value: (p: MapPoint) => number): MapPoint | null {
  const finite = points.filter((p) => Number.isFinite(value(p)));
  return finite.reduce<MapPoint | null>((a, p) => (a === null || value(p) > value(a) ? p : a), null);
}

function extreme(column: readonly MapPoint[], value: (p: MapPoint) => number, sign: 1 | -1): Extreme | null {
  const point = most(column, (p) => sign * value(p));
  if (point === null) return null;
  const { durationDeg } = point;
  const atEdge = point === column[0] || point === column.at(-1);
  return { durationDeg, value: value(point), atEdge };
}

/** Where the lead goes through nought, straight between neighbours. */
export function crossings(points: readonly MapPoint[], place: (p: MapPoint) => number): number[] {
  const found: number[] = [];
  points.forEach((point, k) => {
    const here = point.row.plugback_lead_deg;
    if (here === 0) found.push(place(point));
    const next = points[k + 1];
    if (next === undefined) return;
    const there = next.row.plugback_lead_deg;
    if (here * there < 0) found.push(place(point) + (here / (here - there)) * (place(next) - place(point)));
  });
  return found;
}

/** From the first to the last place where the wave lands. */
function spanOf(
  points: readonly MapPoint[],
  place: (p: MapPoint) => number,
  lands: (row: SweepRow) => boolean,
): Span | null {
  const places = points.filter((p) => lands(p.row)).map(place);
  return places.length === 0 ? null : { from: Math.min(...places), to: Math.max(...places) };
}

function stepBetween(from: MapPoint, to: MapPoint): Step {
  const change = (value: (row: SweepRow) => number): number => value(to.row) - value(from.row);
  return {
    fromDeg: from.durationDeg,
    toDeg: to.durationDeg,
    leadDeg: change((r) => r.plugback_lead_deg),
    torque: change((r) => r.torque_nm),
    packed: change((r) => r.packed_mass_ratio),
    openingBar: change((r) => r.transfer_opening_cylinder_bar),
    echoGain: change((r) => r.echo_gain),
  };
}
