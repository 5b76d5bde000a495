// Pairs of faces of ../../conservative/meet.ts where the waves that meet are neither weak nor strong: Newton's method from the acoustic
// pressure, for two faces at once.

import { add, all, and, at, both, div, everywhere, gt, lt, mul, neg, or, pick, put, size, sub, unless } from "./lanes";
import { Duct } from "./layout";
import { shareOf, slack, steepnessOf, TOLERANCE } from "./wave-curves";

const ROUNDS: i32 = 4;
/** An expansion below this ratio is left to strong-waves.ts, a little before its curve is another. */
const MILD: f64 = 0.72;

/**
 * Meets the states of the two faces at b where `far` holds, from the acoustic pressure and velocity in their star states; c is the
 * impedance rho a of either side.
 * @returns mask of the faces that are strong, or have not met in a few rounds: they stay as they were
 */
export function meetMildly(
  d: Duct, b: usize, far: v128, pl: v128, pr: v128, ul: v128, ur: v128, gl: v128, gr: v128, cl: v128, cr: v128,
): v128 {
  const overPl = div(both(1), pl), overPr = div(both(1), pr), overCl = div(both(1), cl), overCr = div(both(1), cr);
  const shareL = shareOf(gl), shareR = shareOf(gr);
  const apart = sub(ur, ul);
  const acoustic = at(d.pStar, b);
  let ps = acoustic, changeL = both(0), changeR = both(0), met = both(0);
  for (let round = 0; round < ROUNDS; round++) {
    const slackL = slack(mul(ps, overPl), shareL), slackR = slack(mul(ps, overPr), shareR);
    const overL = mul(slackL, overCl), overR = mul(slackR, overCr);
    const steepL = steepnessOf(slackL, overL), steepR = steepnessOf(slackR, overR);
    changeL = mul(sub(ps, pl), overL);
    changeR = mul(sub(ps, pr), overR);
    const dp = neg(div(add(add(changeL, changeR), apart), add(steepL, steepR)));
    ps = add(ps, dp);
    // So short a step as the last changes the velocities by their slopes alone: the rest is of second order.
    changeL = add(changeL, mul(steepL, dp));
    changeR = add(changeR, mul(steepR, dp));
    met = lt(size(dp), mul(both(TOLERANCE), ps));
    if (all(or(met, unless(far, everywhere())))) break;
  }
  const mild = and(met, and(gt(mul(ps, overPl), both(MILD)), gt(mul(ps, overPr), both(MILD))));
  const found = and(far, mild);
  put(d.pStar, b, pick(found, ps, acoustic));
  put(d.uStar, b, pick(found, mul(both(0.5), add(sub(ul, changeL), add(ur, changeR))), at(d.uStar, b)));
  return unless(mild, far);
}
