/**
 * A column over speed. Between the computed speeds readings go straight, and everything that is read between them goes by
 * that: the value at a speed, the mean over a range, the edges of a band. So the width of a band does not jump by a step
 * of the computed speeds where the curve moves by a little, and no two verbs can give it two widths.
 */

import type { ColumnName, SweepRow } from './row.ts';

/** Points of a curve over speed, ascending; null where there is no reading. */
export type Curve = readonly (readonly [speed: number, value: number | null])[];

/** A numeric column over the rows, null where absent. */
export const column = (rows: readonly SweepRow[], name: ColumnName): (number | null)[] =>
  rows.map((row) => {
    const value = row[name];
    return typeof value === 'number' ? value : null;
  });

export const curveOf = (rows: readonly SweepRow[], name: ColumnName): Curve => {
  const values = column(rows, name);
  return rows.map((row, k) => [row.speed_rpm, values[k] ?? null] as const);
};

/** The row in which a column is highest, the first of equals; null: the column is empty. */
export function highest(rows: readonly SweepRow[], name: ColumnName): SweepRow | null {
  let best: SweepRow | null = null;
  let bestValue = Number.NEGATIVE_INFINITY;
  for (const row of rows) {
    const value = row[name];
    if (typeof value === 'number' && value > bestValue) {
      best = row;
      bestValue = value;
    }
  }
  return best;
}

/** Value at a speed, straight between the points; null beyond them and beside a gap. */
export function valueAt(curve: Curve, speed: number): number | null {
  for (const [index, [at, value]] of curve.entries()) {
    if (at === speed) return value;
    if (at < speed) continue;
    const [from, first] = curve[index - 1] ?? [at, null];
    if (first === null || value === null) return null;
    return first + ((speed - from) / (at - from)) * (value - first);
  }
  return null;
}

/** Mean over a range of speeds, the integral of the straight pieces over its width; null where a part is not known. */
export function meanOver(curve: Curve, from: number, to: number): number | null {
  const inside = curve.filter(([speed]) => speed > from && speed < to);
  const points: Curve = [[from, valueAt(curve, from)], ...inside, [to, valueAt(curve, to)]];
  let area = 0;
  for (const [k, [b, q]] of points.entries()) {
    if (q === null) return null;
    const [a, p] = points[k - 1] ?? [b, q];
    area += 0.5 * (b - a) * ((p ?? q) + q);
  }
  return to > from ? area / (to - from) : null;
}

/** Where the computed speeds begin and end, and the widest step between them [rpm]. */
export interface Computed {
  readonly first: number;
  readonly last: number;
  readonly step: number;
}

export function computedSpeeds(rows: readonly SweepRow[]): Computed {
  const speeds = rows.map((row) => row.speed_rpm);
  return {
    first: speeds[0] ?? 0,
    last: speeds.at(-1) ?? 0,
    step: Math.max(0, ...speeds.slice(1).map((at, i) => at - (speeds[i] ?? 0))),
  };
}

/** A value at the first or last computed speed: the true extreme may lie beyond it. */
export const atEndOfRange = (speed: number | null, { first, last }: Computed): boolean =>
  speed === first || speed === last;

/** The row computed nearest to a speed. */
export const nearest = (rows: readonly SweepRow[], about: number): SweepRow | null =>
  rows.reduce<SweepRow | null>(
    (best, row) =>
      best === null || Math.abs(row.speed_rpm - about) < Math.abs(best.speed_rpm - about) ? row : best,
    null,
  );

/** The row that stands for a wanted speed: the nearest, unless the speed lies half a step or more outside; then null. */
export function rowFor(rows: readonly SweepRow[], wanted: number): SweepRow | null {
  const { first, last, step } = computedSpeeds(rows);
  return wanted < first - step / 2 || wanted > last + step / 2 ? null : nearest(rows, wanted);
}

/** How long before exhaust closing the middle of the plug-back comes at a speed [deg]. The port closes alike at all speeds. */
export function middleLeadAt(rows: readonly SweepRow[], speed: number): number | null {
  const middle = valueAt(curveOf(rows, 'plugback_centroid_deg'), speed);
  const closes = rows[0]?.exhaust_closes_deg;
  return middle === null || closes === undefined ? null : closes - middle;
}
