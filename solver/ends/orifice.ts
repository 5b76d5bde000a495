/**
 * An opening of effective area phi F between a duct end and a reservoir: open end (phi = 1), nozzle, port, reed.
 *
 * Out of the duct: isentropic to the throat, where the pressure is the reservoir's, or sonic:
 *   (A*^(4/(gamma-1)) - phi^2) U*^2 = 2/(gamma-1) phi^2 (A*^2 - 1),   A* = lambda* - (gamma-1)/2 U*
 * with speeds in units of the sound speed that the duct's gas has at the reservoir's pressure. Choked once the throat would be
 * supersonic; then the face's Mach number follows from phi = M [2/(gamma+1) (1 + (gamma-1)/2 M^2)]^(-(gamma+1)/(2(gamma-1))).
 *
 * Into the duct: isentropic from the reservoir to the throat, where the pressure is the duct's (or sonic), then mixing at
 * constant pressure and stagnation enthalpy to the full area; the arriving characteristic closes the problem. The stream on
 * the face is at most sonic: where the duct would draw more, its pressure no longer reaches the face.
 * Source: Benson, The Thermodynamics and Gas Dynamics of Internal-Combustion Engines, vol. 1 (1982) (constant-pressure model; value from memory).
 */

import { power } from '../arithmetic/functions.ts';
import { answerEntering, answerLeaving } from '../duct/arrival.ts';
import { ANSWER, ARRIVE, type DuctEnd } from '../duct/duct-end.ts';
import { criticalRatio } from '../gas/critical-ratio.ts';
import { RESERVOIR, type Reservoir } from '../gas/reservoir.ts';
import { unconverged } from '../march/unconverged.ts';
import { BRACKET, narrow, newBracket, newton } from './bracket.ts';
import { answerClosed } from './closed.ts';

/** Openings below this share of the duct's area count as shut. */
const SHUT = 1e-7;

/** Critical pressure ratio for gamma = 1, above that of every gas [-]. */
const HIGHEST_CRITICAL = 0.6066;

/** Most rounds of the iterations below: subsonic and choked throat, stream that enters. */
const ROUNDS = { subsonic: 60, choked: 40, entering: 100 } as const;

/**
 * The speed out of a reservoir goes with the root of p0 - p, so that Newton's method from a last answer next to p0 stands still
 * at once, wherever the root is. It begins at least this far below p0 [-], and what it ends with may miss by no more [-].
 */
const NEAR_REST = { below: 1e-12, miss: 1e-7 } as const;

/** Slots of what the iterations below hand on: share of area open, gamma, lambda of the arriving wave, and what was found. */
const THROAT = { share: 0, gamma: 1, lambda: 2, found: 3 } as const;
const throat = new Float64Array(4);

/**
 * Newton's last step, as a share of how far the unknown is from rest, the scale on which the misses curve. What such a step leaves
 * is the square of it, so nothing is evaluated once more after it. Steps below `round` of the unknown itself are all round-off [-].
 */
const LAST_STEP = { share: 1e-6, round: 1e-13 } as const;

/** Answers for an opening of the share of the duct's area that `end.opening` says. */
export function answerOrifice(end: DuctEnd, reservoir: Reservoir): void {
  if (!(end.opening > SHUT)) {
    answerClosed(end);
    return;
  }
  throat[THROAT.share] = end.opening < 1 ? end.opening : 1;
  if (end.arrive[ARRIVE.rest] >= reservoir[RESERVOIR.pressure]) leave(end, reservoir);
  else enter(end, reservoir);
}

function leave(end: DuctEnd, reservoir: Reservoir): void {
  const s = end.arrive;
  const out = end.answer;
  const phi = throat[THROAT.share];
  const g = s[ARRIVE.gamma];
  const h = 0.5 * (g - 1);
  const lambda = s[ARRIVE.lambda];
  if (phi > 1 - 1e-9 && s[ARRIVE.velocity] >= s[ARRIVE.soundSpeed]) {
    // Supersonic all the way out: nothing can run back in.
    out[ANSWER.soundSpeed] = s[ARRIVE.soundSpeed];
    out[ANSWER.velocity] = s[ARRIVE.velocity];
    answerLeaving(end);
    return;
  }
  const unit = s[ARRIVE.soundSpeed] * power(reservoir[RESERVOIR.pressure] / s[ARRIVE.pressure], h / g);
  throat[THROAT.gamma] = g;
  throat[THROAT.lambda] = lambda / unit;
  throat[THROAT.found] = out[ANSWER.soundSpeed] / unit;
  findSubsonic();
  const A = throat[THROAT.found];
  const U = (lambda / unit - A) / h;
  if (A * A + h * U * U > 1 + h) {
    findChoked();
    const M = throat[THROAT.found];
    const sound = lambda / (1 + h * M);
    out[ANSWER.soundSpeed] = sound;
    out[ANSWER.velocity] = M * sound;
  } else {
    out[ANSWER.soundSpeed] = A * unit;
    out[ANSWER.velocity] = U * unit;
  }
  answerLeaving(end);
}

/** Finds the sound speed on the face over that at the outside pressure, subsonic throat [-]. */
function findSubsonic(): void {
  const phi = throat[THROAT.share];
  if (phi > 1 - 1e-12) {
    throat[THROAT.found] = 1;
    return;
  }
  const lambda = throat[THROAT.lambda];
  const h = 0.5 * (throat[THROAT.gamma] - 1);
  const n = 2 / h;
  const phi2 = phi * phi;
  search[BRACKET.low] = 1;
  search[BRACKET.high] = lambda;
  // From the last answer, else a linear estimate of the face's state.
  const last = throat[THROAT.found];
  search[BRACKET.trial] = last > 1 && last < lambda ? last : 1 + (lambda - 1) * (1 - phi) * (1 - phi);
  let round = 0;
  for (; round < ROUNDS.subsonic; round++) {
    const A = search[BRACKET.trial];
    const U = (lambda - A) / h;
    const raised = power(A, n);
    search[BRACKET.miss] = (raised - phi2) * U * U - (phi2 * (A * A - 1)) / h;
    search[BRACKET.slope] = ((n * raised) / A) * U * U - (2 * (raised - phi2) * U) / h - (2 * phi2 * A) / h;
    search[BRACKET.enough] = Math.max(LAST_STEP.round, LAST_STEP.share * (lambda - A));
    narrow(search);
    if (newton(search)) break;
  }
  if (round === ROUNDS.subsonic) unconverged[0]++;
  throat[THROAT.found] = search[BRACKET.trial];
}

/** Mach number on the face of a choked opening, from its share of area and gamma [-]. */
export function chokedMach(phi: number, g: number): number {
  throat[THROAT.share] = phi;
  throat[THROAT.gamma] = g;
  findChoked();
  return throat[THROAT.found];
}

function findChoked(): void {
  const phi = throat[THROAT.share];
  if (phi > 1 - 1e-12) {
    throat[THROAT.found] = 1;
    return;
  }
  const g = throat[THROAT.gamma];
  const h = 0.5 * (g - 1);
  const exponent = (g + 1) / (2 * (g - 1));
  let M =
    phi / power(1 + h, exponent) < 1
      ? Math.min(0.95, phi * power(1 / (1 + h), exponent) * (1 + phi * phi * 0.3) + 1e-6)
      : 0.5;
  let round = 0;
  for (; round < ROUNDS.choked; round++) {
    const B = (1 + h * M * M) / (1 + h);
    const value = M * power(B, -exponent);
    const slope = value * (1 / M - (exponent * 2 * h * M) / ((1 + h) * B));
    let next = M - (value - phi) / slope;
    if (!(next > 0)) next = 0.5 * M;
    if (!(next < 1)) next = 0.5 * (M + 1);
    const change = Math.abs(next - M);
    M = next;
    if (change < 1e-14) break;
  }
  if (round === ROUNDS.choked) unconverged[0]++;
  throat[THROAT.found] = M;
}

/** Trial of the stream that enters: pressure on the face; speed, density there after throat and mixing, and d(speed)/d(pressure). */
const ENTERING = { pressure: 0, speed: 1, density: 2, slope: 3 } as const;
const entering = new Float64Array(4);
const search = newBracket();

function enter(end: DuctEnd, reservoir: Reservoir): void {
  const s = end.arrive;
  const out = end.answer;
  const g = s[ARRIVE.gamma];
  const h = 0.5 * (g - 1);
  const lambda = s[ARRIVE.lambda];
  const p0 = reservoir[RESERVOIR.pressure];
  const gr = reservoir[RESERVOIR.gamma];
  // Face pressure at which the choked stream of a throat is sonic on the face too: flux = phi gamma p_c/a*, and on the face
  // flux = gamma p/a* for a stream at a* = a0/sqrt(1 + h). Where the duct's gas at rest is above it for any gamma, it is not asked.
  const rest = s[ARRIVE.rest];
  const most = throat[THROAT.share] * p0;
  let sonic = -p0;
  if (!(rest > HIGHEST_CRITICAL * most)) sonic = most * criticalRatio(gr);
  const low = rest > sonic ? rest : sonic;
  // Root of the velocity from the reservoir less what the arriving wave allows, between rest and full pressure, from the last
  // answer.
  const last = out[ANSWER.pressure];
  search[BRACKET.low] = low;
  search[BRACKET.high] = p0;
  const nil = LAST_STEP.round * p0;
  search[BRACKET.trial] = last > low && last < (1 - NEAR_REST.below) * p0 ? last : 0.5 * (low + p0);
  let wave = 0;
  let waveSlope = 0;
  let miss = 0;
  let round = 0;
  for (; round < ROUNDS.entering; round++) {
    const p = search[BRACKET.trial];
    entering[ENTERING.pressure] = p;
    throughThroat(reservoir);
    const sound = s[ARRIVE.soundSpeed] * power(p / s[ARRIVE.pressure], h / g);
    wave = (sound - lambda) / h;
    miss = entering[ENTERING.speed] - wave;
    if (Math.abs(miss) < 1e-12 * lambda) break;
    waveSlope = sound / (g * p);
    search[BRACKET.miss] = miss;
    search[BRACKET.slope] = entering[ENTERING.slope] - waveSlope;
    search[BRACKET.enough] = Math.max(nil, LAST_STEP.share * (p0 - p));
    narrow(search);
    if (newton(search)) {
      const change = search[BRACKET.trial] - p;
      wave += waveSlope * change;
      stepOn(reservoir, change);
      // What it leaves: of second order, but next to rest.
      miss *= Math.min(1, Math.abs(change) / (p0 - p));
      break;
    }
    if (search[BRACKET.high] - search[BRACKET.low] <= nil) break;
  }
  const p = entering[ENTERING.pressure];
  const drawn = p - sonic <= 2 * nil;
  if (round === ROUNDS.entering || (!drawn && Math.abs(miss) > NEAR_REST.miss * lambda)) unconverged[0]++;
  // Near rest the throat's speed, a root of a small difference, is all round-off; the wave's is not.
  const speed = drawn ? entering[ENTERING.speed] : wave;
  out[ANSWER.pressure] = p;
  out[ANSWER.velocity] = -(speed > 0 ? speed : 0);
  out[ANSWER.density] = entering[ENTERING.density];
  out[ANSWER.enthalpy] = reservoir[RESERVOIR.enthalpy];
  out[ANSWER.burnt] = reservoir[RESERVOIR.burnt];
  answerEntering(end);
}

/** Moves the trial on by a change of pressure so small that its speed changes by its slope alone. */
function stepOn(reservoir: Reservoir, change: number): void {
  const g = reservoir[RESERVOIR.gamma];
  const a0 = reservoir[RESERVOIR.soundSpeed];
  entering[ENTERING.pressure] += change;
  entering[ENTERING.speed] += entering[ENTERING.slope] * change;
  const u = entering[ENTERING.speed];
  entering[ENTERING.density] = (g * entering[ENTERING.pressure]) / (a0 * a0 - 0.5 * (g - 1) * u * u);
}

/**
 * Fills speed and density of the trial after the throat and the mixing, from its pressure. With q the flux over gamma p,
 *   u = q (a0^2 - h u^2),   d ln q/d ln p = -2z - z at^2/(h ut^2),  z = h/gamma,  and -1 where the throat is choked.
 */
function throughThroat(reservoir: Reservoir): void {
  const p = entering[ENTERING.pressure];
  const phi = throat[THROAT.share];
  const p0 = reservoir[RESERVOIR.pressure];
  const g = reservoir[RESERVOIR.gamma];
  const h = 0.5 * (g - 1);
  const z = h / g;
  const a0 = reservoir[RESERVOIR.soundSpeed];
  entering[ENTERING.slope] = 0;
  if (p >= p0) {
    entering[ENTERING.speed] = 0;
    entering[ENTERING.density] = (g * p) / (a0 * a0);
    return;
  }
  // Sound speed in the throat over a0; the throat is choked where it would fall below that of the sonic stream.
  const cooled = power(p / p0, z);
  const choked = cooled * cooled * (1 + h) <= 1;
  const ratio = choked ? criticalRatio(g) : p / p0;
  const at2 = choked ? (a0 * a0) / (1 + h) : a0 * a0 * cooled * cooled;
  const ut2 = (a0 * a0 - at2) / h;
  const ut = Math.sqrt(ut2);
  let u = ut;
  if (phi > 1 - 1e-12 && !choked) entering[ENTERING.slope] = (-z * at2) / (h * ut * p);
  else {
    const q = (phi * ratio * p0 * ut) / (at2 * p);
    u = (2 * q * a0 * a0) / (1 + Math.sqrt(1 + 4 * q * q * h * a0 * a0));
    const grows = choked ? -1 : -2 * z - (z * at2) / (h * ut2);
    entering[ENTERING.slope] = (u * grows) / (p * (1 + 2 * q * h * u));
  }
  entering[ENTERING.speed] = u;
  entering[ENTERING.density] = (g * p) / (a0 * a0 - h * u * u);
}
