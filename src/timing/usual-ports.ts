/**
 * What is usual of a port by how fast the piston goes, v = S N / 30 [m/s] with the stroke S in m and N in rpm: a mild single for
 * road or trail runs at some 12 m/s at the speed that its pipe is for, a racing one at 17 to 24. All of it common practice,
 * no source.
 */

/** From -0.25 at 10 m/s through 0 at 12 to 1 at 21 [-]. */
function briskness(pistonSpeed: number): number {
  return Math.min(1, Math.max(-0.25, (pistonSpeed - 12) / 9));
}

/** From 0 for a racing engine, 17 m/s and more, to 1 for a mild one at 12 [-]. */
export function mildness(pistonSpeed: number): number {
  return Math.min(1, Math.max(0, (17 - pistonSpeed) / 5));
}

/** Crank angle for which the exhaust is open, 163 to 198 [deg]. */
export function usualExhaustDuration(pistonSpeed: number): number {
  return 170 + 28 * briskness(pistonSpeed);
}

/** Crank angle from exhaust opening to transfer opening, 26 to 35 [deg]. */
export function usualBlowdown(pistonSpeed: number): number {
  return 28 + 7 * briskness(pistonSpeed);
}

/** Area where the exhaust passage ends, over the port's, 0.79 in a racing engine to 1.02 in a mild one [-]. */
export function usualPassageExit(pistonSpeed: number): number {
  return 0.79 + 0.23 * mildness(pistonSpeed);
}
