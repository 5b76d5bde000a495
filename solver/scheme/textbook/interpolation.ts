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

/**
 * Holds element j of `out`, a value between nodes i and i+1 of q that lies beyond both. Only arrays and places are passed:
 * numbers with a fraction would be boxed.
 */
export function hold(out: Float64Array, j: number, q: Float64Array, d: Float64Array, i: number): void {
  const d0 = d[i];
  const d1 = d[i + 1];
  const smooth =
    d0 * d1 > 0 && Math.abs(d0) <= SMOOTH * Math.abs(d1) && Math.abs(d1) <= SMOOTH * Math.abs(d0);
  if (smooth) return;
  const low = Math.min(q[i], q[i + 1]);
  const high = Math.max(q[i], q[i + 1]);
  out[j] = out[j] < low ? low : high;
}

const one = new Float64Array(1);

/** Value of a field between nodes i and i+1 at t in [0, 1]. */
export function between(q: Float64Array, d: Float64Array, i: number, t: number): number {
  const q0 = q[i];
  const q1 = q[i + 1];
  const bend = (t * (1 - t)) / 6;
  one[0] = q0 + t * (q1 - q0) - bend * ((2 - t) * d[i] + (1 + t) * d[i + 1]);
  if ((one[0] - q0) * (q1 - one[0]) < 0) hold(one, 0, q, d, i);
  return one[0];
}

/** Values of a field at feet nu cells to the left of the nodes 1 .. cells-1. */
export function atFeet(
  q: Float64Array,
  d: Float64Array,
  nu: Float64Array,
  out: Float64Array,
  cells: number,
): void {
  for (let j = 1; j < cells; j++) {
    const v = nu[j];
    const i = v >= 0 ? j - 1 : j;
    const t = v >= 0 ? 1 - v : -v;
    const q0 = q[i];
    const q1 = q[i + 1];
    const bend = (t * (1 - t)) / 6;
    const value = q0 + t * (q1 - q0) - bend * ((2 - t) * d[i] + (1 + t) * d[i + 1]);
    out[j] = value;
    if ((value - q0) * (q1 - value) < 0) hold(out, j, q, d, i);
  }
}
