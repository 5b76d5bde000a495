/**
 * A wall across the duct: the velocity on the face is nil. The pressure there follows from the arriving state through a
 * shock where it runs against the wall, through an isentropic expansion where it runs away:
 *   p_w/p = [(3g-1) ...] in the strong form; written here with A = (gamma+1)/4 m^2, m = u/a:
 *   p_w/p = 1 + gamma m [A' + sqrt(1 + A'^2)],  A' = (gamma+1)/4 m   (u > 0),
 *   p_w/p = (1 + (gamma-1)/2 m)^(2gamma/(gamma-1))                    (u <= 0).
 * Source: shock relations, NACA Report 1135 (1953), solved for the piston problem; derived here.
 */

import { power } from '../arithmetic/functions.ts';
import { ANSWER, ARRIVE, type DuctEnd } from '../duct/duct-end.ts';

/** Answers for a closed end. */
export function answerClosed(end: DuctEnd): void {
  const s = end.arrive;
  const out = end.answer;
  const g = s[ARRIVE.gamma];
  const m = s[ARRIVE.velocity] / s[ARRIVE.soundSpeed];
  if (m > 0) {
    const k = 0.25 * (g + 1) * m;
    const ratio = 1 + g * m * (k + Math.sqrt(1 + k * k));
    out[ANSWER.density] = s[ARRIVE.density] * power(ratio, 1 / g);
    out[ANSWER.pressure] = s[ARRIVE.pressure] * ratio;
  } else {
    // The expansion to rest is known already; the temperature falls by X^2.
    const X = 1 + 0.5 * (g - 1) * m;
    const rest = s[ARRIVE.rest];
    out[ANSWER.density] = X > 0 ? (s[ARRIVE.density] * rest) / (s[ARRIVE.pressure] * X * X) : 0;
    out[ANSWER.pressure] = rest;
  }
  out[ANSWER.velocity] = 0;
  out[ANSWER.burnt] = s[ARRIVE.burnt];
  out[ANSWER.mass] = 0;
  out[ANSWER.energy] = 0;
  out[ANSWER.burntMass] = 0;
}
