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

/**
 * Left and right edge value of a parabola, before and after `limit`, and the share of its curvature that the cells around
 * bear out. Numbers passed as such would be boxed; so too for the curvatures: the parabola's own, those around, the least.
 */
export const edges = new Float64Array(3);
const SHARE = 2;
const CURVE = { own: 0, a: 1, b: 2, c: 3, least: 4 } as const;
const curve = new Float64Array(5);

/** Limits the parabola in cell k of edge values `edges`. */
export function limit(q: Float64Array, k: number): void {
  const here = q[k];
  const dl = here - edges[0];
  const dr = edges[1] - here;
  const l = Math.abs(dl);
  const r = Math.abs(dr);
  if (dl * dr <= 0 || (here - q[k - 2]) * (q[k + 2] - here) <= 0) {
    bearOut(q, k);
    const share = edges[SHARE];
    if (dl * dr <= 0) {
      edges[0] = here - share * dl;
      edges[1] = here + share * dr;
    } else if (l > 2 * r) edges[0] = here - 2 * (1 - share) * dr - share * dl;
    else if (r > 2 * l) edges[1] = here + 2 * (1 - share) * dl + share * dr;
  } else if (l > 2 * r) edges[0] = here - 2 * dr;
  else if (r > 2 * l) edges[1] = here + 2 * dl;
}

/** Fills the share of a parabola's curvature that those of the cells around bear out, 0 to 1. */
function bearOut(q: Float64Array, k: number): void {
  const here = q[k];
  const own = 6 * (edges[0] + edges[1] - 2 * here);
  curve[CURVE.own] = own;
  curve[CURVE.a] = q[k - 2] - 2 * q[k - 1] + here;
  curve[CURVE.b] = q[k - 1] - 2 * here + q[k + 1];
  curve[CURVE.c] = here - 2 * q[k + 1] + q[k + 2];
  fillLeast();
  edges[SHARE] = own === 0 ? 0 : curve[CURVE.least] / own;
}

/** Makes good the value of face j that came out beyond its two neighbours, between q[j+1] and q[j+2]. */
export function limitFace(q: Float64Array, face: Float64Array, j: number): void {
  const left = q[j + 1];
  const right = q[j + 2];
  const other = left - 2 * right + q[j + 3];
  curve[CURVE.own] = 3 * (left - 2 * face[j] + right);
  curve[CURVE.a] = q[j] - 2 * left + right;
  curve[CURVE.b] = other;
  curve[CURVE.c] = other;
  fillLeast();
  face[j] = 0.5 * (left + right) - curve[CURVE.least] / 6;
}

/** Fills the smallest of the curvatures, with some trust in the own one; 0 where they differ in sign. */
function fillLeast(): void {
  const own = curve[CURVE.own];
  const a = curve[CURVE.a];
  const b = curve[CURVE.b];
  const c = curve[CURVE.c];
  curve[CURVE.least] = 0;
  if (!(own * a > 0 && own * b > 0 && own * c > 0)) return;
  const size = Math.min(Math.abs(own), TRUST * Math.min(Math.abs(a), Math.abs(b), Math.abs(c)));
  curve[CURVE.least] = own > 0 ? size : -size;
}
