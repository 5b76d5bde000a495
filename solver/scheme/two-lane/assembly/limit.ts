// Limiting of the parabolas, as ../../conservative/limit.ts: for two cells, and for one where a rare case asks for it.

import {
  add, and, at, at1, at2, at3, at4, both, div, gt, le, least, mul, or, pick, size, sub,
} from "./lanes";
import { Row } from "./layout";

export const TRUST: f64 = 1.25;

/** The limited edges of two parabolas, and of one. */
export let leftEdges: v128 = i64x2.splat(0);
export let rightEdges: v128 = i64x2.splat(0);
export let leftEdge: f64 = 0;
export let rightEdge: f64 = 0;

/** Limits the parabolas in the cells at b. One that needs no limiting comes out as it went in. */
export function limitPair(q: Row, b: usize, left: v128, right: v128): void {
  const here = at2(q, b), back = at1(q, b), front = at3(q, b), back2 = at(q, b), front2 = at4(q, b);
  const dl = sub(here, left), dr = sub(right, here);
  const l = size(dl), r = size(dr);
  const crest = le(mul(dl, dr), both(0));
  const near = or(crest, le(mul(sub(here, back2), sub(front2, here)), both(0)));
  const twice = mul(both(2), here);
  const own = mul(both(6), sub(add(left, right), twice));
  const x = add(sub(back2, mul(both(2), back)), here);
  const y = add(sub(back, twice), front);
  const z = add(sub(here, mul(both(2), front)), front2);
  const agree = and(and(near, gt(mul(own, x), both(0))), and(gt(mul(own, y), both(0)), gt(mul(own, z), both(0))));
  const ownSize = size(own);
  const curve = least(ownSize, mul(both(TRUST), least(least(size(x), size(y)), size(z))));
  const share = and(agree, div(curve, pick(agree, ownSize, both(1))));
  const rest = mul(both(2), sub(both(1), share));
  const shareLeft = mul(share, dl), shareRight = mul(share, dr);
  const steepLeft = pick(gt(l, mul(both(2), r)), sub(sub(here, mul(rest, dr)), shareLeft), left);
  const steepRight = pick(gt(r, mul(both(2), l)), add(add(here, mul(rest, dl)), shareRight), right);
  leftEdges = pick(crest, sub(here, shareLeft), steepLeft);
  rightEdges = pick(crest, add(here, shareRight), steepRight);
}

/** Limits the parabola in cell k. */
export function limitOne(q: Row, k: i32, left: f64, right: f64): void {
  const here = q[k];
  const dl = here - left;
  const dr = right - here;
  const l = Math.abs(dl);
  const r = Math.abs(dr);
  leftEdge = left;
  rightEdge = right;
  if (dl * dr <= 0 || (here - q[k - 2]) * (q[k + 2] - here) <= 0) {
    const share = bornOut(q, k, 6 * (left + right - 2 * here));
    if (dl * dr <= 0) {
      leftEdge = here - share * dl;
      rightEdge = here + share * dr;
    } else if (l > 2 * r) leftEdge = here - 2 * (1 - share) * dr - share * dl;
    else if (r > 2 * l) rightEdge = here + 2 * (1 - share) * dl + share * dr;
  } else if (l > 2 * r) leftEdge = here - 2 * dr;
  else if (r > 2 * l) rightEdge = here + 2 * dl;
}

/** Share of a parabola's curvature that those of the cells around bear out. */
function bornOut(q: Row, k: i32, own: f64): f64 {
  const x = q[k - 2] - 2 * q[k - 1] + q[k];
  const y = q[k - 1] - 2 * q[k] + q[k + 1];
  const z = q[k] - 2 * q[k + 1] + q[k + 2];
  if (!(own * x > 0 && own * y > 0 && own * z > 0)) return 0;
  const around = TRUST * Math.min(Math.min(Math.abs(x), Math.abs(y)), Math.abs(z));
  return Math.min(Math.abs(own), around) / Math.abs(own);
}
