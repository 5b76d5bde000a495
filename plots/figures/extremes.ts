/** Where a trace over crank angle is highest, lowest, or last above a level: places for its name. */

/** Index of the largest (`sign` 1) or smallest (−1) value between two angles. */
export function extreme(
  angles: ArrayLike<number>,
  values: ArrayLike<number>,
  from: number,
  to: number,
  sign: 1 | -1,
): number {
  let best = -1;
  for (let i = 0; i < angles.length; i++) {
    const angle = angles[i] ?? 0;
    if (angle < from || angle > to) continue;
    if (best < 0 || sign * ((values[i] ?? 0) - (values[best] ?? 0)) > 0) best = i;
  }
  return Math.max(best, 0);
}

/** Index of the last value, before an angle, at which a curve still stands above a level. */
export function lastAbove(
  angles: ArrayLike<number>,
  values: ArrayLike<number>,
  level: number,
  before: number,
): number {
  let found = 0;
  for (let i = 0; i < angles.length; i++)
    if ((angles[i] ?? 0) < before && (values[i] ?? 0) > level) found = i;
  return found;
}
