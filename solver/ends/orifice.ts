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

import { answerEntering, answerLeaving } from '../duct/arrival.ts';
import { ANSWER, ARRIVE, type DuctEnd } from '../duct/duct-end.ts';
import { RESERVOIR, type Reservoir } from '../gas/reservoir.ts';
import { unconverged } from '../march/unconverged.ts';
import { BRACKET, beginSearch, falsePosition, narrow, newBracket } from './bracket.ts';
import { answerClosed } from './closed.ts';

/** Openings below this share of the duct's area count as shut. */
const SHUT = 1e-7;

/** Most rounds of the iterations below: subsonic and choked throat, stream that enters. */
const ROUNDS = { subsonic: 60, choked: 40, entering: 100 } as const;

/** Slots of what the iterations below hand on: share of area open, gamma, lambda of the arriving wave, and what was found. */
const THROAT = { share: 0, gamma: 1, lambda: 2, found: 3 } as const;
const throat = new Float64Array(4);

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
  const unit = s[ARRIVE.soundSpeed] * (reservoir[RESERVOIR.pressure] / s[ARRIVE.pressure]) ** (h / g);
  throat[THROAT.gamma] = g;
  throat[THROAT.lambda] = lambda / unit;
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
  throat[THROAT.found] = 1;
  if (phi > 1 - 1e-12) return;
  const lambda = throat[THROAT.lambda];
  const h = 0.5 * (throat[THROAT.gamma] - 1);
  const n = 2 / h;
  const phi2 = phi * phi;
  let low = 1;
  let high = lambda;
  // Linear estimate of the face's state, then Newton's method kept inside the bracket.
  let A = low + (high - low) * (1 - phi) ** 2;
  let round = 0;
  for (; round < ROUNDS.subsonic; round++) {
    const U = (lambda - A) / h;
    const power = A ** n;
    const miss = (power - phi2) * U * U - (phi2 * (A * A - 1)) / h;
    if (miss > 0) low = A;
    else high = A;
    const slope = ((n * power) / A) * U * U - (2 * (power - phi2) * U) / h - (2 * phi2 * A) / h;
    let next = A - miss / slope;
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    const change = Math.abs(next - A);
    A = next;
    if (change < 1e-14) break;
  }
  if (round === ROUNDS.subsonic) unconverged[0]++;
  throat[THROAT.found] = A;
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
  throat[THROAT.found] = 1;
  if (phi > 1 - 1e-12) return;
  const g = throat[THROAT.gamma];
  const h = 0.5 * (g - 1);
  const power = (g + 1) / (2 * (g - 1));
  let M =
    phi / (1 + h) ** power < 1
      ? Math.min(0.95, phi * (1 / (1 + h)) ** power * (1 + phi * phi * 0.3) + 1e-6)
      : 0.5;
  let round = 0;
  for (; round < ROUNDS.choked; round++) {
    const B = (1 + h * M * M) / (1 + h);
    const value = M * B ** -power;
    const slope = value * (1 / M - (power * 2 * h * M) / ((1 + h) * B));
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

/** Trial of the stream that enters: pressure on the face, and its speed and density there after throat and mixing. */
const ENTERING = { pressure: 0, speed: 1, density: 2 } as const;
const entering = new Float64Array(3);
const search = newBracket();

function enter(end: DuctEnd, reservoir: Reservoir): void {
  const s = end.arrive;
  const out = end.answer;
  const g = s[ARRIVE.gamma];
  const h = 0.5 * (g - 1);
  const lambda = s[ARRIVE.lambda];
  const p0 = reservoir[RESERVOIR.pressure];
  // Root of the velocity from the reservoir less what the arriving wave allows, between rest and full pressure.
  const rest = s[ARRIVE.rest];
  const tolerance = 1e-13 * p0;
  const sonic = sonicPressure(reservoir);
  const low = rest > sonic ? rest : sonic;
  let high = p0;
  entering[ENTERING.pressure] = low;
  throughThroat(reservoir);
  const lowMiss =
    entering[ENTERING.speed] - (s[ARRIVE.soundSpeed] * (low / s[ARRIVE.pressure]) ** (h / g) - lambda) / h;
  if (low === sonic && !(lowMiss > 0)) high = low;
  const drawn = high === low;
  beginSearch(search);
  search[BRACKET.low] = low;
  search[BRACKET.high] = high;
  search[BRACKET.lowMiss] = lowMiss;
  search[BRACKET.highMiss] = -(s[ARRIVE.soundSpeed] * (high / s[ARRIVE.pressure]) ** (h / g) - lambda) / h;
  search[BRACKET.trial] = low;
  let p = low;
  let round = 0;
  for (; round < ROUNDS.entering && search[BRACKET.high] - search[BRACKET.low] > tolerance; round++) {
    falsePosition(search);
    p = search[BRACKET.trial];
    entering[ENTERING.pressure] = p;
    throughThroat(reservoir);
    const miss =
      entering[ENTERING.speed] - (s[ARRIVE.soundSpeed] * (p / s[ARRIVE.pressure]) ** (h / g) - lambda) / h;
    if (Math.abs(miss) < 1e-12 * lambda) break;
    search[BRACKET.miss] = miss;
    narrow(search);
  }
  if (round === ROUNDS.entering) unconverged[0]++;
  entering[ENTERING.pressure] = p;
  throughThroat(reservoir);
  // Near rest the throat's speed, a root of a small difference, is all round-off; the wave's is not.
  const wave = (s[ARRIVE.soundSpeed] * (p / s[ARRIVE.pressure]) ** (h / g) - lambda) / h;
  const speed = drawn ? entering[ENTERING.speed] : wave;
  out[ANSWER.pressure] = p;
  out[ANSWER.velocity] = -(speed > 0 ? speed : 0);
  out[ANSWER.density] = entering[ENTERING.density];
  out[ANSWER.enthalpy] = reservoir[RESERVOIR.enthalpy];
  out[ANSWER.burnt] = reservoir[RESERVOIR.burnt];
  answerEntering(end);
}

/** Face pressure at which the choked stream of a throat is sonic on the face too [Pa]. */
function sonicPressure(reservoir: Reservoir): number {
  const g = reservoir[RESERVOIR.gamma];
  const h = 0.5 * (g - 1);
  // flux = phi gamma p_c/a*, and on the face flux = gamma p/a* for a stream at a* = a0/sqrt(1 + h)
  return throat[THROAT.share] * reservoir[RESERVOIR.pressure] * (1 / (1 + h)) ** (g / (g - 1));
}

/** Fills speed and density of the trial after the throat and the mixing, from its pressure. */
function throughThroat(reservoir: Reservoir): void {
  const p = entering[ENTERING.pressure];
  const phi = throat[THROAT.share];
  const p0 = reservoir[RESERVOIR.pressure];
  const g = reservoir[RESERVOIR.gamma];
  const h = 0.5 * (g - 1);
  const a0 = reservoir[RESERVOIR.soundSpeed];
  const critical = (1 / (1 + h)) ** (g / (g - 1));
  const ratio = p / p0 > critical ? p / p0 : critical;
  if (ratio >= 1) {
    entering[ENTERING.speed] = 0;
    entering[ENTERING.density] = (g * p) / (a0 * a0);
    return;
  }
  const at = a0 * ratio ** (h / g);
  const ut = Math.sqrt((a0 * a0 - at * at) / h);
  const flux = (phi * g * ratio * p0 * ut) / (at * at);
  let u: number;
  if (phi > 1 - 1e-12 && p / p0 > critical) u = ut;
  else {
    const gp = g * p;
    u = (2 * flux * a0 * a0) / (gp + Math.sqrt(gp * gp + 4 * flux * flux * h * a0 * a0));
  }
  entering[ENTERING.speed] = u;
  entering[ENTERING.density] = (g * p) / (a0 * a0 - h * u * u);
}
