// How velocity changes across a shock or a mild expansion from p to p*, ../../conservative/meet.ts:
//   u - u* = -+ (p* - p) slack/c,   slack = 1/sqrt(1 + share (p*/p - 1)),   share = (gamma + 1)/2 gamma

import { add, both, div, mul, root, sub } from "./lanes";

/** Of a step of Newton's method that is the last, in parts of the pressure. */
export const TOLERANCE: f64 = 5e-7;

@inline
export function shareOf(g: v128): v128 { return div(add(g, both(1)), mul(both(2), g)); }

@inline
export function slack(ratio: v128, share: v128): v128 {
  return div(both(1), root(add(both(1), mul(share, sub(ratio, both(1))))));
}

/** Slope of the change over p*; `over` is slack/c. */
@inline
export function steepnessOf(slack: v128, over: v128): v128 {
  return mul(mul(both(0.5), add(both(1), mul(slack, slack))), over);
}
