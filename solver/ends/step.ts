/**
 * A sudden change of area between two duct ends.
 *
 * Into the wider duct the jet mixes and part of the pressure is lost (Borda-Carnot; the pressure of the narrow face acts
 * on the annulus):   p1 F2 + rho1 u1^2 F1 = p2 F2 + rho2 u2^2 F2,   mass and stagnation enthalpy conserved.
 * Into the narrower duct the stream is isentropic to its vena contracta, of area C_c F2, and then expands to F2 with the
 * same loss; C_c = 1 is loss-free. On each side the arriving characteristic gives pressure against velocity.
 * Sources: Benson 1982 (from memory); momentum balance of Borda-Carnot, standard; joined with the characteristics here.
 */

import { ANSWER, ARRIVE, type DuctEnd } from '../duct/duct-end.ts';
import { answerLeaving, arrivingLambda, restPressure } from './arrival.ts';
import { answerClosed } from './closed.ts';
import { chokedMach } from './orifice.ts';

/** Downstream state of the last trial: pressure, speed. */
const beyond = new Float64Array(2);
/** Trial of the upstream face: sound speed, pressure, density, gamma. */
const face = new Float64Array(4);

/** Answers for both ends of a sudden change of area; contraction is C_c of the narrower side [-]. */
export function answerStep(first: DuctEnd, second: DuctEnd, contraction: number): void {
  const forward = restPressure(first) >= restPressure(second);
  const up = forward ? first : second;
  const down = forward ? second : first;
  const h = 0.5 * (up.arrive[ARRIVE.gamma] - 1);
  const lambda = arrivingLambda(up);
  const throat = throatShare(up, down, contraction);
  const topMach = throat < 1 ? chokedMach(throat, up.arrive[ARRIVE.gamma]) : 1;
  const top = (lambda * topMach) / (1 + h * topMach);
  let low = 0;
  let high = top;
  let lowMiss = Number.NaN;
  let highMiss = stepMiss(up, down, top, contraction);
  let u: number;
  if (highMiss <= 0) u = top;
  else {
    lowMiss = stepMiss(up, down, 0, contraction);
    if (lowMiss >= 0) {
      answerClosed(up);
      answerClosed(down);
      return;
    }
    u = (low * highMiss - high * lowMiss) / (highMiss - lowMiss);
    for (let round = 0; round < 80; round++) {
      const miss = stepMiss(up, down, u, contraction);
      if (miss > 0) {
        high = u;
        highMiss = miss;
      } else {
        low = u;
        lowMiss = miss;
      }
      let next =
        round % 3 === 2 ? 0.5 * (low + high) : (low * highMiss - high * lowMiss) / (highMiss - lowMiss);
      if (!(next > low && next < high)) next = 0.5 * (low + high);
      const change = Math.abs(next - u);
      u = next;
      if (change < 1e-13 * lambda || high - low < 1e-13 * lambda) break;
    }
    stepMiss(up, down, u, contraction);
  }
  answerLeaving(up, lambda - h * u, u);
  answerDownstream(up, down, highMiss <= 0);
}

/** Effective throat over the upstream area; above 1 for an expansion [-]. */
function throatShare(up: DuctEnd, down: DuctEnd, contraction: number): number {
  return down.area < up.area ? (contraction * down.area) / up.area : down.area / up.area;
}

/** Downstream velocity less what the wave arriving there allows, for an upstream face velocity [m/s]. */
function stepMiss(up: DuctEnd, down: DuctEnd, u: number, contraction: number): number {
  const s = up.arrive;
  const g = s[ARRIVE.gamma];
  const h = 0.5 * (g - 1);
  const a = arrivingLambda(up) - h * u;
  const p = s[ARRIVE.pressure] * (a / s[ARRIVE.soundSpeed]) ** (g / h);
  face[0] = a;
  face[1] = p;
  face[2] = (g * p) / (a * a);
  face[3] = g;
  if (down.area >= up.area) spread(p, face[2], u, a * a + h * u * u, g, up.area / down.area);
  else contract(p, a, u, g, up.area, down.area, contraction);
  const d = down.arrive;
  const hd = 0.5 * (d[ARRIVE.gamma] - 1);
  const sound = d[ARRIVE.soundSpeed] * (beyond[0] / d[ARRIVE.pressure]) ** (hd / d[ARRIVE.gamma]);
  return beyond[1] - (sound - arrivingLambda(down)) / hd;
}

/** Borda-Carnot: a stream of pressure p, density r, speed u spreads from share 1 : 1/share of area. */
function spread(p: number, r: number, u: number, a0Squared: number, g: number, share: number): void {
  const h = 0.5 * (g - 1);
  const flux = r * u * share;
  const m = p + flux * u;
  if (flux <= 0) {
    beyond[0] = p;
    beyond[1] = 0;
    return;
  }
  // p2 = m - flux u2 and gamma p2 u2 = flux (a0^2 - h u2^2)
  const qa = (g - h) * flux;
  const qb = -g * m;
  const qc = flux * a0Squared;
  const root = qb * qb - 4 * qa * qc;
  const u2 = (2 * qc) / (-qb + Math.sqrt(root > 0 ? root : 0));
  beyond[0] = m - flux * u2;
  beyond[1] = u2;
}

function contract(
  p: number,
  a: number,
  u: number,
  g: number,
  upArea: number,
  downArea: number,
  contraction: number,
): void {
  const h = 0.5 * (g - 1);
  const throat = contraction * downArea;
  const M1 = u / a;
  const power = (g + 1) / (2 * (g - 1));
  const wanted = (M1 * (1 + h * M1 * M1) ** -power * upArea) / throat;
  let M = Math.min(0.999, wanted);
  for (let round = 0; round < 40; round++) {
    const B = 1 + h * M * M;
    const value = M * B ** -power;
    const slope = B ** -power * (1 - (2 * power * h * M * M) / B);
    let next = M - (value - wanted) / slope;
    if (!(next < 1)) next = 0.5 * (M + 1);
    if (!(next >= 0)) next = 0.5 * M;
    const change = Math.abs(next - M);
    M = next;
    if (change < 1e-14) break;
  }
  const a0Squared = a * a + h * u * u;
  const at = Math.sqrt(a0Squared / (1 + h * M * M));
  const pt = p * (at / a) ** (g / h);
  if (contraction >= 1) {
    beyond[0] = pt;
    beyond[1] = M * at;
  } else spread(pt, (g * pt) / (at * at), M * at, a0Squared, g, contraction);
}

/** Fills the downstream answer from the upstream flows, so that nothing is lost between the two. */
function answerDownstream(up: DuctEnd, down: DuctEnd, choked: boolean): void {
  const from = up.answer;
  const out = down.answer;
  const flux = from[ANSWER.mass] / down.area;
  let p = beyond[0];
  let u = beyond[1];
  if (choked) {
    // The flow is fixed; pressure and speed follow from the arriving wave and the stagnation enthalpy.
    p = chokedDownstream(down, flux);
    u = beyond[1];
  }
  out[ANSWER.velocity] = -u;
  out[ANSWER.pressure] = p;
  out[ANSWER.density] = u > 0 ? flux / u : from[ANSWER.density];
  out[ANSWER.burnt] = from[ANSWER.burnt];
  out[ANSWER.mass] = -from[ANSWER.mass];
  out[ANSWER.energy] = -from[ANSWER.energy];
  out[ANSWER.burntMass] = -from[ANSWER.burntMass];
}

function chokedDownstream(down: DuctEnd, flux: number): number {
  const d = down.arrive;
  const g = face[3];
  const h = 0.5 * (g - 1);
  const hd = 0.5 * (d[ARRIVE.gamma] - 1);
  const a0Squared = face[0] * face[0] * (1 + h);
  const lambda = arrivingLambda(down);
  let low = restPressure(down);
  let high = face[1] > low ? face[1] : 1.001 * low;
  let p = high;
  for (let round = 0; round < 60; round++) {
    p = 0.5 * (low + high);
    const gp = g * p;
    beyond[1] = (2 * flux * a0Squared) / (gp + Math.sqrt(gp * gp + 4 * flux * flux * h * a0Squared));
    const sound = d[ARRIVE.soundSpeed] * (p / d[ARRIVE.pressure]) ** (hd / d[ARRIVE.gamma]);
    if (beyond[1] > (sound - lambda) / hd) low = p;
    else high = p;
  }
  return p;
}
