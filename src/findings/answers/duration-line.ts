/** Reading points that stand in a line, by duration at one speed or by speed at one duration. */

import type { DurationPoint, SweepRow } from '../row.ts';

export interface Extreme {
  readonly durationDeg: number;
  readonly value: number;
  /** At the first or the last duration of the map: the true one may lie beyond. */
  readonly atEdge: boolean;
}

type Value = (point: DurationPoint) => number | null;

/** The point with the greatest value, the first of equals; null: none has one. */
export function greatest(points: readonly DurationPoint[], value: Value): DurationPoint | null {
  let best: DurationPoint | null = null;
  let most = Number.NEGATIVE_INFINITY;
  for (const point of points) {
    const here = value(point);
    if (here === null || here <= most) continue;
    best = point;
    most = here;
  }
  return best;
}

/** The greatest value of a line, or with sign -1 the least. */
export function extreme(line: readonly DurationPoint[], value: Value, sign: 1 | -1 = 1): Extreme | null {
  const signed: Value = (point) => {
    const here = value(point);
    return here === null ? null : sign * here;
  };
  const point = greatest(line, signed);
  if (point === null) return null;
  const atEdge = point === line[0] || point === line.at(-1);
  return { durationDeg: point.durationDeg, value: value(point) ?? 0, atEdge };
}

/** Torque within this share of the best is as good: the curves are flat there, and cycles vary as much. */
export const ALIKE_SHARE = 0.01;

/** Durations about the best, one after another, whose torque is within the share of it, and the lowest among them. */
export function alikeAbout(
  line: readonly DurationPoint[],
  best: Extreme,
): { readonly from: number; readonly to: number; readonly lowest: number } {
  const level = (1 - ALIKE_SHARE) * best.value;
  const at = line.findIndex(({ durationDeg }) => durationDeg === best.durationDeg);
  const torque = (k: number): number => line[k]?.row.torque_nm ?? Number.NEGATIVE_INFINITY;
  let [first, last] = [at, at];
  while (torque(first - 1) >= level) first -= 1;
  while (torque(last + 1) >= level) last += 1;
  const same = line.slice(first, last + 1);
  return {
    from: same[0]?.durationDeg ?? best.durationDeg,
    to: same.at(-1)?.durationDeg ?? best.durationDeg,
    lowest: Math.min(...same.map((_, k) => torque(first + k))),
  };
}

/** Where a lead goes through nought, straight between neighbours; not across a gap. */
export function crossings(
  points: readonly DurationPoint[],
  place: (point: DurationPoint) => number,
  lead: (row: SweepRow) => number | null,
): readonly number[] {
  const found: number[] = [];
  points.forEach((point, k) => {
    const here = lead(point.row);
    if (here === 0) found.push(place(point));
    const next = points[k + 1];
    const there = next === undefined ? null : lead(next.row);
    if (next === undefined || here === null || there === null) return;
    if (here * there < 0) found.push(place(point) + (here / (here - there)) * (place(next) - place(point)));
  });
  return found;
}
