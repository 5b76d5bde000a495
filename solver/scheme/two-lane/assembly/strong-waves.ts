// Faces of ../../conservative/meet.ts that are not of the common kind: two strong waves meet, or the face lies inside a wave or
// beyond it. The waves to the left and to the right are the two lanes.

import { add, all, both, div, ge, holds0, holds1, lane0, lane1, mul, pair, root, sub } from "./lanes";
import { Duct, GHOSTS } from "./layout";
import { shareOf, slack, steepnessOf, TOLERANCE } from "./wave-curves";

export const STRONG_EXPANSION: f64 = 0.7;
const ROUNDS: i32 = 8;

/** Change of velocity across the two waves to a pressure, and its slopes; left by `waves`. */
let changes: v128 = i64x2.splat(0);
let steepness: v128 = i64x2.splat(0);

/** `overP` is 1/p, `overC` 1/c, and `share` as in wave-curves.ts. */
function waves(ps: f64, p: v128, overP: v128, overC: v128, share: v128, g: v128, c: v128, r: v128): void {
  const ratio = mul(both(ps), overP);
  const held = slack(ratio, share);
  const over = mul(held, overC);
  changes = mul(sub(both(ps), p), over);
  steepness = steepnessOf(held, over);
  const weak = ge(ratio, both(STRONG_EXPANSION));
  if (all(weak)) return;
  if (!holds0(weak)) {
    const power = expanded(lane0(ratio), lane0(g));
    changes = f64x2.replace_lane(changes, 0, escape(lane0(g), lane0(c), lane0(r)) * (power - 1));
    steepness = f64x2.replace_lane(steepness, 0, power / (lane0(ratio) * lane0(c)));
  }
  if (!holds1(weak)) {
    const power = expanded(lane1(ratio), lane1(g));
    changes = f64x2.replace_lane(changes, 1, escape(lane1(g), lane1(c), lane1(r)) * (power - 1));
    steepness = f64x2.replace_lane(steepness, 1, power / (lane1(ratio) * lane1(c)));
  }
}

/** z^((gamma-1)/2gamma) of an isentropic expansion. */
@inline
function expanded(ratio: f64, g: f64): f64 { return Math.pow(ratio, (g - 1) / (2 * g)); }

/** 2a/(gamma-1), with c = rho a. */
@inline
function escape(g: f64, c: f64, r: f64): f64 { return (2 * c) / (r * (g - 1)); }

/** Pressure and velocity of face j by Newton's method from the acoustic pressure; whether its tolerance was met. */
export function meetStrongly(d: Duct, j: i32): bool {
  const k = j + GHOSTS;
  const p = pair(d.pLeft[j], d.pRight[j]);
  const r = pair(d.rLeft[j], d.rRight[j]);
  const g = pair(d.gamma[k - 1], d.gamma[k]);
  const ul = d.uLeft[j], ur = d.uRight[j];
  const c = root(mul(mul(g, p), r));
  const overP = div(both(1), p), overC = div(both(1), c), share = shareOf(g);
  const low = Math.min(lane0(p), lane1(p));
  let ps = d.pStar[j];
  if (!(ps > 0.3 * low)) ps = twoRarefactions(p, g, c, r, ur - ul);
  let met = true;
  let near = false;
  if (ps > 1e-9 * low) {
    for (let round = 0; round < ROUNDS; round++) {
      waves(ps, p, overP, overC, share, g, c, r);
      const dp = -(lane0(changes) + lane1(changes) + ur - ul) / (lane0(steepness) + lane1(steepness));
      const next = ps + dp;
      ps = next > 0.1 * ps ? next : 0.1 * ps;
      near = Math.abs(dp) < TOLERANCE * ps;
      // So short a step changes the velocities by their slopes alone: the rest is of second order.
      if (near) {
        changes = add(changes, mul(steepness, both(dp)));
        break;
      }
    }
    met = near;
  } else ps = 1e-9 * low;
  if (!near) waves(ps, p, overP, overC, share, g, c, r);
  d.pStar[j] = ps;
  d.uStar[j] = 0.5 * (ul - lane0(changes) + ur + lane1(changes));
  return met;
}

function twoRarefactions(p: v128, g: v128, c: v128, r: v128, apart: f64): f64 {
  const mean = 0.5 * (lane0(g) + lane1(g));
  const z = (mean - 1) / (2 * mean);
  const a = div(c, r);
  const top = lane0(a) + lane1(a) - 0.5 * (mean - 1) * apart;
  if (!(top > 0)) return 0;
  return Math.pow(top / (lane0(a) / Math.pow(lane0(p), z) + lane1(a) / Math.pow(lane1(p), z)), 1 / z);
}

/** The state on face j, whose star pressure and velocity are known. */
export function sampleFace(d: Duct, j: i32): void {
  const k = j + GHOSTS;
  const us = d.uStar[j], ps = d.pStar[j];
  const left = us >= 0;
  const r = left ? d.rLeft[j] : d.rRight[j];
  const p = left ? d.pLeft[j] : d.pRight[j];
  const u = left ? d.uLeft[j] : -d.uRight[j];
  const g = left ? d.gamma[k - 1] : d.gamma[k];
  const v = left ? us : -us;
  const ratio = ps / p;
  const grow = 1 + ((g + 1) / (2 * g)) * (ratio - 1);
  const star = ratio < STRONG_EXPANSION ? r * Math.pow(ratio, 1 / g) : r / (1 - (ratio - 1) / (g * grow));
  d.rStar[j] = star;
  if (u * u * r < 0.64 * g * p && v * v * star < 0.64 * g * ps) return;
  let weight: f64 = 1;
  if (ps > p) {
    const speed = u - Math.sqrt((g * p * grow) / r);
    weight = speed >= 0 ? 0 : 1;
  } else {
    const head = u - Math.sqrt((g * p) / r);
    const tail = v - Math.sqrt((g * ps) / star);
    if (head >= 0) weight = 0;
    else if (tail > 0) weight = -head / (tail - head);
  }
  const velocity = u + weight * (v - u);
  d.rStar[j] = r + weight * (star - r);
  d.uStar[j] = left ? velocity : -velocity;
  d.pStar[j] = p + weight * (ps - p);
}
