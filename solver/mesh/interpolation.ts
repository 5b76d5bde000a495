/**
 * Cubic interpolation between nodes through the four nearest, in the form of the chord less its bend:
 *   q(t) = q_i + t (q_{i+1} - q_i) - t(1-t)/6 [ (2-t) d_i + (1+t) d_{i+1} ],   d_i = q_{i-1} - 2 q_i + q_{i+1}
 * The bend at an end node is that of its neighbour (a parabola through the last three). A value outside its two
 * neighbours is kept where the bends on both sides agree, as at a smooth crest, and held back to the neighbours where they do not.
 */

/** Fills the second differences of a field over nodes 0 .. cells. */
export function bends(q: Float64Array, d: Float64Array, cells: number): void {
  let before = q[0];
  let here = q[1];
  for (let j = 1; j < cells; j++) {
    const after = q[j + 1];
    d[j] = before - 2 * here + after;
    before = here;
    here = after;
  }
  d[0] = d[1];
  d[cells] = d[cells - 1];
}

/** Bends on the two sides of a crest may differ by this factor and still be called smooth [-]. */
const SMOOTH = 4;

/** A value between q0 and q1 after the bends d0 and d1. */
export function held(value: number, q0: number, q1: number, d0: number, d1: number): number {
  const low = q0 < q1 ? q0 : q1;
  const high = q0 < q1 ? q1 : q0;
  if (value >= low && value <= high) return value;
  const smooth =
    d0 * d1 > 0 && Math.abs(d0) <= SMOOTH * Math.abs(d1) && Math.abs(d1) <= SMOOTH * Math.abs(d0);
  return smooth ? value : value < low ? low : high;
}

/** Value of a field between nodes i and i+1 at t in [0, 1]. */
export function between(q: Float64Array, d: Float64Array, i: number, t: number): number {
  const q0 = q[i];
  const q1 = q[i + 1];
  const bend = (t * (1 - t)) / 6;
  return held(q0 + t * (q1 - q0) - bend * ((2 - t) * d[i] + (1 + t) * d[i + 1]), q0, q1, d[i], d[i + 1]);
}
