/**
 * The time of a step, in an array that the network owns and its parts read. A number handed to a function, or back from it,
 * is boxed on the heap wherever the compiler does not inline the call; a slot of a typed array never is. So whatever runs in
 * every step is given arrays, here and in `GasPoint`, `DuctEnd` and `VolumeDrive`.
 */

export const CLOCK = {
  /** Start of the step [s]. */
  time: 0,
  /** Its length [s]. */
  dt: 1,
  /** Time at which openings and drives are taken in the present stage [s]. */
  stage: 2,
  /** Part of the step, from its start, that the stage's flows are integrated over: half of it, then all [s]. */
  span: 3,
  /** The most that the next step may take [s]. */
  limit: 4,
} as const;

export type Clock = Float64Array;

export function newClock(time = 0, dt = 0): Clock {
  return Float64Array.of(time, dt, time, 0, Number.POSITIVE_INFINITY);
}
