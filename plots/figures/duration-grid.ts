/** Points of a map, and a quantity of theirs on the grid of all speeds and durations. */

import type { DurationPoint, SweepRow } from '../../src/findings/row.ts';

const ascending = (values: Iterable<number>): number[] => [...new Set(values)].sort((a, b) => a - b);

/** Values on the grid of all speeds and durations, a row a duration; null where a point is missing. */
export function onGrid(
  points: readonly DurationPoint[],
  value: (row: SweepRow) => number | null,
): { readonly speeds: number[]; readonly durations: number[]; readonly z: (number | null)[][] } {
  const speeds = ascending(points.map((point) => point.row.speed_rpm));
  const durations = ascending(points.map((point) => point.durationDeg));
  const found = new Map(
    points.map((point) => [`${point.durationDeg}/${point.row.speed_rpm}`, value(point.row)]),
  );
  const z = durations.map((duration) => speeds.map((speed) => found.get(`${duration}/${speed}`) ?? null));
  return { speeds, durations, z };
}
