/**
 * A sudden change of area between two duct ends.
 *
 * Into the wider duct the jet mixes and part of the pressure is lost (Borda-Carnot; the pressure of the narrow face acts
 * on the annulus):   p1 F2 + rho1 u1^2 F1 = p2 F2 + rho2 u2^2 F2,   mass and stagnation enthalpy conserved.
 * Into the narrower duct the stream is isentropic to its vena contracta, of area C_c F2, and then expands to F2 with the
 * same loss; C_c = 1 is loss-free. On each side the arriving characteristic gives pressure against velocity.
 * Sources: Benson 1982 (from memory); momentum balance of Borda-Carnot, standard; joined with the characteristics here.
 */

import { power } from '../arithmetic/functions.ts';
import { answerLeaving } from '../duct/arrival.ts';
import { ANSWER, ARRIVE, type DuctEnd } from '../duct/duct-end.ts';
import { unconverged } from '../march/unconverged.ts';
import { BRACKET, beginSearch, falsePosition, narrow, newBracket } from './bracket.ts';
import { answerClosed } from './closed.ts';
import { chokedMach } from './orifice.ts';

/**
 * The trial: velocity of the upstream face and the contraction coefficient; then from them sound speed, pressure and gamma
 * of that face, pressure and speed downstream, and the downstream velocity less what the wave arriving there allows.
 */
const TRIAL = { u: 0, contraction: 1, a: 2, p: 3, g: 4, beyondP: 5, beyondU: 6, miss: 7 } as const;
const trial = new Float64Array(8);
const search = newBracket();

/** Most rounds for the velocity upstream, the Mach number at a vena contracta, and the pressure behind a choked throat. */
const ROUNDS = { velocity: 80, contracta: 40, choked: 60 } as const;
/** How far the equation of a vena contracta may stay off [-], and the root of the one behind a jet turn negative. */
const ROUND_OFF = 1e-10;

/** Answers for both ends of a sudden change of area; contraction is C_c of the narrower side [-]. */
export function answerStep(first: DuctEnd, second: DuctEnd, contraction: number): void {
  const forward = first.arrive[ARRIVE.rest] >= second.arrive[ARRIVE.rest];
  const up = forward ? first : second;
  const down = forward ? second : first;
  const h = 0.5 * (up.arrive[ARRIVE.gamma] - 1);
  const lambda = up.arrive[ARRIVE.lambda];
  trial[TRIAL.contraction] = contraction;
  const throat = throatShare(up, down);
  const topMach = throat < 1 ? chokedMach(throat, up.arrive[ARRIVE.gamma]) : 1;
  const top = (lambda * topMach) / (1 + h * topMach);
  trial[TRIAL.u] = top;
  tryStep(up, down);
  const choked = trial[TRIAL.miss] <= 0;
  if (!choked && !meetBelow(up, down)) {
    answerClosed(up);
    answerClosed(down);
    return;
  }
  const u = trial[TRIAL.u];
  up.answer[ANSWER.soundSpeed] = lambda - h * u;
  up.answer[ANSWER.velocity] = u;
  answerLeaving(up);
  answerDownstream(up, down, choked);
}

/** Finds the upstream velocity, below that of the trial, at which both sides agree; false if nothing flows. */
function meetBelow(up: DuctEnd, down: DuctEnd): boolean {
  const enough = 1e-13 * up.arrive[ARRIVE.lambda];
  beginSearch(search);
  search[BRACKET.high] = trial[TRIAL.u];
  search[BRACKET.highMiss] = -trial[TRIAL.miss];
  search[BRACKET.low] = 0;
  trial[TRIAL.u] = 0;
  tryStep(up, down);
  search[BRACKET.lowMiss] = -trial[TRIAL.miss];
  if (search[BRACKET.lowMiss] <= 0) return false;
  let before = Number.NaN;
  let round = 0;
  for (; round < ROUNDS.velocity; round++) {
    falsePosition(search);
    const u = search[BRACKET.trial];
    trial[TRIAL.u] = u;
    tryStep(up, down);
    search[BRACKET.miss] = -trial[TRIAL.miss];
    if (Math.abs(u - before) < enough || trial[TRIAL.miss] === 0) break;
    before = u;
    narrow(search);
    if (search[BRACKET.high] - search[BRACKET.low] < enough) break;
  }
  if (round === ROUNDS.velocity || Number.isNaN(trial[TRIAL.miss])) unconverged[0]++;
  return true;
}

/** Effective throat over the upstream area; above 1 for an expansion [-]. */
function throatShare(up: DuctEnd, down: DuctEnd): number {
  return down.area < up.area ? (trial[TRIAL.contraction] * down.area) / up.area : down.area / up.area;
}

/** Completes the trial from its upstream velocity. */
function tryStep(up: DuctEnd, down: DuctEnd): void {
  const s = up.arrive;
  const u = trial[TRIAL.u];
  const g = s[ARRIVE.gamma];
  const h = 0.5 * (g - 1);
  const a = up.arrive[ARRIVE.lambda] - h * u;
  const p = s[ARRIVE.pressure] * power(a / s[ARRIVE.soundSpeed], g / h);
  trial[TRIAL.a] = a;
  trial[TRIAL.p] = p;
  trial[TRIAL.g] = g;
  if (down.area >= up.area) {
    stream[STREAM.p] = p;
    stream[STREAM.r] = (g * p) / (a * a);
    stream[STREAM.u] = u;
    stream[STREAM.a0Squared] = a * a + h * u * u;
    stream[STREAM.share] = up.area / down.area;
    spread();
  } else contract(up, down);
  const d = down.arrive;
  const hd = 0.5 * (d[ARRIVE.gamma] - 1);
  const sound = d[ARRIVE.soundSpeed] * power(trial[TRIAL.beyondP] / d[ARRIVE.pressure], hd / d[ARRIVE.gamma]);
  trial[TRIAL.miss] = trial[TRIAL.beyondU] - (sound - down.arrive[ARRIVE.lambda]) / hd;
}

/** A stream about to spread: pressure, density, speed, its stagnation sound speed squared, and its area over that beyond. */
const STREAM = { p: 0, r: 1, u: 2, a0Squared: 3, share: 4 } as const;
const stream = new Float64Array(5);

/** Borda-Carnot: the stream spreads over the whole area; fills the trial's state downstream. */
function spread(): void {
  const g = trial[TRIAL.g];
  const p = stream[STREAM.p];
  const u = stream[STREAM.u];
  const h = 0.5 * (g - 1);
  const flux = stream[STREAM.r] * u * stream[STREAM.share];
  const m = p + flux * u;
  if (flux <= 0) {
    trial[TRIAL.beyondP] = p;
    trial[TRIAL.beyondU] = 0;
    return;
  }
  // p2 = m - flux u2 and gamma p2 u2 = flux (a0^2 - h u2^2)
  const qa = (g - h) * flux;
  const qb = -g * m;
  const qc = flux * stream[STREAM.a0Squared];
  const root = qb * qb - 4 * qa * qc;
  // Nil for a stream at the speed of sound that does not spread; below that, no state downstream takes the stream.
  if (root < -ROUND_OFF * qb * qb) unconverged[0]++;
  const u2 = (2 * qc) / (-qb + Math.sqrt(root > 0 ? root : 0));
  trial[TRIAL.beyondP] = m - flux * u2;
  trial[TRIAL.beyondU] = u2;
}

/** Into the narrower duct: isentropic to the vena contracta, then spreading; fills the trial's state downstream. */
function contract(up: DuctEnd, down: DuctEnd): void {
  const p = trial[TRIAL.p];
  const a = trial[TRIAL.a];
  const u = trial[TRIAL.u];
  const g = trial[TRIAL.g];
  const contraction = trial[TRIAL.contraction];
  const h = 0.5 * (g - 1);
  const throat = contraction * down.area;
  const M1 = u / a;
  const exponent = (g + 1) / (2 * (g - 1));
  const wanted = (M1 * power(1 + h * M1 * M1, -exponent) * up.area) / throat;
  // A sonic contracta is a double root, which Newton's method never settles on.
  const most = power(1 + h, -exponent);
  if (wanted > (1 + ROUND_OFF) * most) unconverged[0]++;
  const sonic = wanted >= (1 - 1e-13) * most;
  let M = sonic ? 1 : Math.min(0.999, wanted);
  let off = 0;
  let round = 0;
  for (; !sonic && round < ROUNDS.contracta; round++) {
    const B = 1 + h * M * M;
    const value = M * power(B, -exponent);
    off = Math.abs(value - wanted);
    const slope = power(B, -exponent) * (1 - (2 * exponent * h * M * M) / B);
    let next = M - (value - wanted) / slope;
    if (!(next < 1)) next = 0.5 * (M + 1);
    if (!(next >= 0)) next = 0.5 * M;
    const change = Math.abs(next - M);
    M = next;
    if (change < 1e-14) break;
  }
  if (round === ROUNDS.contracta && off > ROUND_OFF) unconverged[0]++;
  const a0Squared = a * a + h * u * u;
  const at = Math.sqrt(a0Squared / (1 + h * M * M));
  const pt = p * power(at / a, g / h);
  if (contraction >= 1) {
    trial[TRIAL.beyondP] = pt;
    trial[TRIAL.beyondU] = M * at;
    return;
  }
  stream[STREAM.p] = pt;
  stream[STREAM.r] = (g * pt) / (at * at);
  stream[STREAM.u] = M * at;
  stream[STREAM.a0Squared] = a0Squared;
  stream[STREAM.share] = contraction;
  spread();
}

/** Fills the downstream answer from the upstream flows, so that nothing is lost between the two. */
function answerDownstream(up: DuctEnd, down: DuctEnd, choked: boolean): void {
  const from = up.answer;
  const out = down.answer;
  if (choked) chokedDownstream(up, down);
  const flux = from[ANSWER.mass] / down.area;
  const u = trial[TRIAL.beyondU];
  out[ANSWER.velocity] = -u;
  out[ANSWER.pressure] = trial[TRIAL.beyondP];
  out[ANSWER.density] = u > 0 ? flux / u : from[ANSWER.density];
  out[ANSWER.burnt] = from[ANSWER.burnt];
  out[ANSWER.mass] = -from[ANSWER.mass];
  out[ANSWER.energy] = -from[ANSWER.energy];
  out[ANSWER.burntMass] = -from[ANSWER.burntMass];
}

/**
 * The flow is fixed; pressure and speed downstream follow from the arriving wave and the stagnation enthalpy. The stream on the
 * face is at most sonic: where the duct would draw more, its pressure no longer reaches the face.
 */
function chokedDownstream(up: DuctEnd, down: DuctEnd): void {
  const flux = up.answer[ANSWER.mass] / down.area;
  const g = trial[TRIAL.g];
  const h = 0.5 * (g - 1);
  const a0Squared = trial[TRIAL.a] * trial[TRIAL.a] * (1 + h);
  const lambda = down.arrive[ARRIVE.lambda];
  const sonic = (flux * Math.sqrt(a0Squared / (1 + h))) / g;
  const rest = down.arrive[ARRIVE.rest];
  const low = rest > sonic ? rest : sonic;
  const high = trial[TRIAL.p] > low ? trial[TRIAL.p] : 1.001 * low;
  beginSearch(search);
  behind[BEHIND.flux] = flux;
  behind[BEHIND.a0Squared] = a0Squared;
  search[BRACKET.trial] = search[BRACKET.high] = high;
  tryBehind(down);
  search[BRACKET.highMiss] = search[BRACKET.miss];
  if (search[BRACKET.miss] > 0) {
    unconverged[0]++;
    return;
  }
  search[BRACKET.trial] = search[BRACKET.low] = low;
  tryBehind(down);
  search[BRACKET.lowMiss] = search[BRACKET.miss];
  if (!(search[BRACKET.miss] > 0)) return;
  let round = 0;
  for (; round < ROUNDS.choked; round++) {
    falsePosition(search);
    tryBehind(down);
    if (Math.abs(search[BRACKET.miss]) < 1e-12 * lambda) break;
    narrow(search);
    if (search[BRACKET.high] - search[BRACKET.low] <= 1e-14 * search[BRACKET.high]) break;
  }
  if (round === ROUNDS.choked) unconverged[0]++;
}

/** Flux into the duct behind a choked throat [kg/(s m2)], and the square of the stream's stagnation sound speed [m2/s2]. */
const BEHIND = { flux: 0, a0Squared: 1 } as const;
const behind = new Float64Array(2);

/** Fills the trial's state downstream at the pressure of the search, and what its speed misses the arriving wave's by. */
function tryBehind(down: DuctEnd): void {
  const d = down.arrive;
  const p = search[BRACKET.trial];
  const g = trial[TRIAL.g];
  const h = 0.5 * (g - 1);
  const hd = 0.5 * (d[ARRIVE.gamma] - 1);
  const flux = behind[BEHIND.flux];
  const a0Squared = behind[BEHIND.a0Squared];
  const gp = g * p;
  const u = (2 * flux * a0Squared) / (gp + Math.sqrt(gp * gp + 4 * flux * flux * h * a0Squared));
  const sound = d[ARRIVE.soundSpeed] * power(p / d[ARRIVE.pressure], hd / d[ARRIVE.gamma]);
  search[BRACKET.miss] = u - (sound - d[ARRIVE.lambda]) / hd;
  trial[TRIAL.beyondP] = p;
  trial[TRIAL.beyondU] = u;
}
