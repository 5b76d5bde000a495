/**
 * What a map says to the one who holds the file: at the wanted speed, which duration; for the duration as drawn, which
 * speed; what the next step of duration costs and buys; and where the echo is strongest, as found.
 */

import type { SweepRow } from '../../findings/row.ts';
import type { MapPoint } from './map.ts';

export interface Span {
  readonly from: number;
  readonly to: number;
}

/** What one row has more than another. */
export interface Step {
  readonly fromDeg: number;
  readonly toDeg: number;
  /** How much higher the roof of the exhaust is cut [m]. */
  readonly roof: number;
  /** Exhaust closing less the middle of the plug-back. */
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
  /** The duration drawn, and that of the map nearest to it [deg]. */
  readonly askedDeg: number;
  readonly drawnDeg: number;
  readonly bestTorque: Extreme | null;
  /** Durations beside the best whose torque is all but as high, and the lowest torque among them. */
  readonly alike: (Span & { readonly lowest: number }) | null;
  readonly bestTorqueAsDrawn: number;
  /** Durations at which the middle of the plug-back meets exhaust closing, straight between the map's [deg]. */
  readonly meetsDeg: readonly number[];
  /** Durations at which the wave lands as wanted; null: none. */
  readonly landsDeg: Span | null;
  /** For the duration as drawn: speed of most torque, speeds where the middle meets closing and where the wave lands. */
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

/** Torque within this share of the best is as good: the curves are flat there, and cycles vary as much. */
export const ALIKE_SHARE = 0.01;

/** How long before exhaust closing the middle of the plug-back lands, negative after it [deg]. */
export const middleLead = (row: SweepRow): number => row.exhaust_closes_deg - row.plugback_centroid_deg;

/**
 * Reads a map. `lands` says whether the wave lands as wanted, `roofTravel` where the roof of a duration lies below that
 * of no travel [m]. Null: no point was finished.
 */
export function readMap(
  points: readonly MapPoint[],
  asked: {
    readonly targetSpeed: number | null;
    readonly drawnDurationDeg: number;
    readonly roofTravel: (durationDeg: number) => number;
  },
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
    at < 0 || to === undefined ? null : stepBetween(column[at] as MapPoint, to, asked.roofTravel);
  const gain = (p: MapPoint): number => p.row.echo_gain;
  const strongest = extreme(column, gain, 1);
  const weakest = extreme(column, gain, -1);
  const edges = [column[0], column.at(-1)].flatMap((p) => (p === undefined ? [] : [gain(p)]));
  const overEdges = (strongest?.value ?? 0) - Math.max(...edges.filter(Number.isFinite));
  return {
    speedRpm,
    isTarget: targetSpeed !== null,
    askedDeg: asked.drawnDurationDeg,
    drawnDeg,
    bestTorque: extreme(column, (p) => p.row.torque_nm, 1),
    alike: alikeSpan(column),
    bestTorqueAsDrawn: column[at]?.row.torque_nm ?? Number.NaN,
    meetsDeg: crossings(column, (p) => p.durationDeg, middleLead),
    landsDeg: spanOf(column, (p) => p.durationDeg, lands),
    drawnBest:
      drawnBest === null ? null : { speedRpm: drawnBest.row.speed_rpm, torque: drawnBest.row.torque_nm },
    meetsRpm: crossings(asDrawn, (p) => p.row.speed_rpm, middleLead),
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

/** Durations about the best, one after another, whose torque is within the share of it. */
function alikeSpan(column: readonly MapPoint[]): MapAnswer['alike'] {
  const best = most(column, (p) => p.row.torque_nm);
  if (best === null) return null;
  const level = (1 - ALIKE_SHARE) * best.row.torque_nm;
  const at = column.indexOf(best);
  let [first, last] = [at, at];
  while ((column[first - 1]?.row.torque_nm ?? Number.NaN) >= level) first -= 1;
  while ((column[last + 1]?.row.torque_nm ?? Number.NaN) >= level) last += 1;
  const same = column.slice(first, last + 1);
  return {
    from: same[0]?.durationDeg ?? best.durationDeg,
    to: same.at(-1)?.durationDeg ?? best.durationDeg,
    lowest: Math.min(...same.map((p) => p.row.torque_nm)),
  };
}

/** Where a lead goes through nought, straight between neighbours. */
export function crossings(
  points: readonly MapPoint[],
  place: (p: MapPoint) => number,
  lead: (row: SweepRow) => number,
): number[] {
  const found: number[] = [];
  points.forEach((point, k) => {
    const here = lead(point.row);
    if (here === 0) found.push(place(point));
    const next = points[k + 1];
    if (next === undefined) return;
    const there = lead(next.row);
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

function stepBetween(from: MapPoint, to: MapPoint, roofTravel: (durationDeg: number) => number): Step {
  const change = (value: (row: SweepRow) => number): number => value(to.row) - value(from.row);
  return {
    fromDeg: from.durationDeg,
    toDeg: to.durationDeg,
    roof: roofTravel(from.durationDeg) - roofTravel(to.durationDeg),
    leadDeg: change(middleLead),
    torque: change((r) => r.torque_nm),
    packed: change((r) => r.packed_mass_ratio),
    openingBar: change((r) => r.transfer_opening_cylinder_bar),
    echoGain: change((r) => r.echo_gain),
  };
}
