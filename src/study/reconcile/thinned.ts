/**
 * A curve of many points thinned to as many speeds as tell its shape: points that fall into the same stretch of speeds become
 * one, at their mean speed and with their mean torque. The error stays that of a point: what a dynamometer is off by, it is
 * off by at neighbouring speeds alike.
 */

import type { DynoPoint } from '../../model/measured.ts';

/** Speeds that a curve is thinned to, at most. */
export const MOST_SPEEDS = 14;

/** In ascending order of speed, as given. */
export function thinned(points: readonly DynoPoint[]): readonly DynoPoint[] {
  const distinct = new Set(points.map(({ rpm }) => Math.round(rpm)));
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return [];
  const apart = distinct.size <= MOST_SPEEDS ? null : (last.rpm - first.rpm) / MOST_SPEEDS;
  const stretch = ({ rpm }: DynoPoint): number =>
    apart === null ? Math.round(rpm) : Math.min(MOST_SPEEDS - 1, Math.floor((rpm - first.rpm) / apart));
  const stretches = new Map<number, DynoPoint[]>();
  for (const point of points) {
    const list = stretches.get(stretch(point)) ?? [];
    list.push(point);
    stretches.set(stretch(point), list);
  }
  return [...stretches.values()].map(meanPoint);
}

function meanPoint(points: readonly DynoPoint[]): DynoPoint {
  const mean = (value: (point: DynoPoint) => number): number =>
    points.reduce((sum, point) => sum + value(point), 0) / points.length;
  const { file, line } = points[0]!;
  return {
    file,
    line,
    rpm: points.length === 1 ? points[0]!.rpm : Math.round(mean(({ rpm }) => rpm)),
    torque: mean(({ torque }) => torque),
    error: mean(({ error }) => error),
  };
}
