/**
 * Limiting of the parabolas that keeps smooth crests. A monotone limiter flattens every crest, also a well resolved one: a
 * pressure pulse 60 cells long lost 0.25 % of its height in 0.4 m. Here a parabola with a crest in it, or beside one, keeps
 * its curvature as far as the curvatures of the cells around have the same sign and are not much smaller; next to a jump
 * they are not, and it is flattened. Away from crests the monotone rule of Colella & Woodward 1984, eq. 1.10, holds.
 * Sources: Colella & Sekora, J. Comput. Phys. 227 (2008) 7069; McCorquodale & Colella, Commun. Appl. Math. Comput. Sci. 6
 * (2011) 1 (both from memory; without the latter's test of third differences).
 */

/** How much larger than those around a curvature may be [-]. */
const TRUST = 1.25;

/** Left and right edge value of a parabola, before and after `limit`; numbers passed as such would be boxed. */
export const edges = new Float64Array(2);

/** Limits the parabola in cell k of edge values `edges`. */
export function limit(q: Float64Array, k: number): void {
  const here = q[k];
  const left = edges[0];
  const right = edges[1];
  const dl = here - left;
  const dr = right - here;
  const l = Math.abs(dl);
  const r = Math.abs(dr);
  if (dl * dr <= 0 || (here - q[k - 2]) * (q[k + 2] - here) <= 0) {
    const share = bornOut(q, k, 6 * (left + right - 2 * here));
    if (dl * dr <= 0) {
      edges[0] = here - share * dl;
      edges[1] = here + share * dr;
    } else if (l > 2 * r) edges[0] = here - 2 * (1 - share) * dr - share * dl;
    else if (r > 2 * l) edges[1] = here + 2 * (1 - share) * dl + share * dr;
  } else if (l > 2 * r) edges[0] = here - 2 * dr;
  else if (r > 2 * l) edges[1] = here + 2 * dl;
}

/** Share of a parabola's curvature that those of the cells around bear out, 0 to 1. */
function bornOut(q: Float64Array, k: number, own: number): number {
  const here = q[k];
  const left = q[k - 2] - 2 * q[k - 1] + here;
  const middle = q[k - 1] - 2 * here + q[k + 1];
  const right = here - 2 * q[k + 1] + q[k + 2];
  return own === 0 ? 0 : least(own, left, middle, right) / own;
}

/** Makes good the value of face j that came out beyond its two neighbours, between q[j+1] and q[j+2]. */
export function limitFace(q: Float64Array, face: Float64Array, j: number): void {
  const left = q[j + 1];
  const right = q[j + 2];
  const own = 3 * (left - 2 * face[j] + right);
  const other = left - 2 * right + q[j + 3];
  face[j] = 0.5 * (left + right) - least(own, q[j] - 2 * left + right, other, other) / 6;
}

function least(own: number, a: number, b: number, c: number): number {
  if (!(own * a > 0 && own * b > 0 && own * c > 0)) return 0;
  const size = Math.min(Math.abs(own), TRUST * Math.min(Math.abs(a), Math.abs(b), Math.abs(c)));
  return own > 0 ? size : -size;
}
