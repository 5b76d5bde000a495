/**
 * An opening of effective area phi F between a duct end and a reservoir: open end (phi = 1), nozzle, port, reed.
 *
 * Out of the duct: isentropic to the throat, where the pressure is the reservoir's, or sonic:
 *   (A*^(4/(gamma-1)) - phi^2) U*^2 = 2/(gamma-1) phi^2 (A*^2 - 1),   A* = lambda* - (gamma-1)/2 U*
 * with speeds in units of the sound speed that the duct's gas has at the reservoir's pressure. Choked once the throat would be
 * supersonic; then the face's Mach number follows from phi = M [2/(gamma+1) (1 + (gamma-1)/2 M^2)]^(-(gamma+1)/(2(gamma-1))).
 *
 * Into the duct: isentropic from the reservoir to the throat, where the pressure is the duct's (or sonic), then mixing at
 * constant pressure and stagnation enthalpy to the full area; the arriving characteristic closes the problem.
 * Source: Benson, The Thermodynamics and Gas Dynamics of Internal-Combustion Engines, vol. 1 (1982) (constant-pressure model; value from memory).
 */

import { ARRIVE, type DuctEnd } from '../duct/duct-end.ts';
import { answerEntering, answerLeaving, arrivingLambda, restPressure } from './arrival.ts';
import { answerClosed } from './closed.ts';
import { RESERVOIR, type Reservoir } from './reservoir.ts';

/** Openings below this share of the duct's area count as shut. */
const SHUT = 1e-7;

/** Answers for an opening; phi is its effective area over the duct's, 0 to 1 [-]. */
export function answerOrifice(end: DuctEnd, phi: number, reservoir: Reservoir): void {
  if (!(phi > SHUT)) {
    answerClosed(end);
    return;
  }
  const open = phi < 1 ? phi : 1;
  if (restPressure(end) >= reservoir[RESERVOIR.pressure]) leave(end, open, reservoir[RESERVOIR.pressure]);
  else enter(end, open, reservoir);
}

function leave(end: DuctEnd, phi: number, outside: number): void {
  const s = end.arrive;
  const g = s[ARRIVE.gamma];
  const h = 0.5 * (g - 1);
  const lambda = arrivingLambda(end);
  if (phi > 1 - 1e-9 && s[ARRIVE.velocity] >= s[ARRIVE.soundSpeed]) {
    // Supersonic all the way out: nothing can run back in.
    answerLeaving(end, s[ARRIVE.soundSpeed], s[ARRIVE.velocity]);
    return;
  }
  const unit = s[ARRIVE.soundSpeed] * (outside / s[ARRIVE.pressure]) ** (h / g);
  const A = subsonicThroat(lambda / unit, phi, g);
  const U = (lambda / unit - A) / h;
  if (A * A + h * U * U > 1 + h) {
    const M = chokedMach(phi, g);
    const sound = lambda / (1 + h * M);
    answerLeaving(end, sound, M * sound);
  } else answerLeaving(end, A * unit, U * unit);
}

/** Sound speed on the face over that at the outside pressure, subsonic throat [-]. */
export function subsonicThroat(lambda: number, phi: number, g: number): number {
  if (phi > 1 - 1e-12) return 1;
  const h = 0.5 * (g - 1);
  const n = 2 / h;
  const phi2 = phi * phi;
  let low = 1;
  let high = lambda;
  // Linear estimate of the face's state, then Newton's method kept inside the bracket.
  let A = low + (high - low) * (1 - phi) ** 2;
  for (let round = 0; round < 60; round++) {
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
  return A;
}

/** Mach number on the face of a choked opening [-]. */
export function chokedMach(phi: number, g: number): number {
  if (phi > 1 - 1e-12) return 1;
  const h = 0.5 * (g - 1);
  const power = (g + 1) / (2 * (g - 1));
  let M = phi * ((g + 1) / 2) ** -power * 1.001;
  M =
    phi / (1 + h) ** power < 1
      ? Math.min(0.95, phi * (1 / (1 + h)) ** power * (1 + phi * phi * 0.3) + 1e-6)
      : 0.5;
  for (let round = 0; round < 40; round++) {
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
  return M;
}

const entering = new Float64Array(3);

function enter(end: DuctEnd, phi: number, reservoir: Reservoir): void {
  const s = end.arrive;
  const g = s[ARRIVE.gamma];
  const h = 0.5 * (g - 1);
  const lambda = arrivingLambda(end);
  const p0 = reservoir[RESERVOIR.pressure];
  // Root of the velocity from the reservoir less what the arriving wave allows, between rest and full pressure, by the
  // Illinois form of false position.
  const rest = restPressure(end);
  const tolerance = 1e-13 * p0;
  let low = rest;
  let high = p0;
  throughThroat(low, phi, reservoir);
  let lowMiss = entering[0];
  let highMiss = -(s[ARRIVE.soundSpeed] * (high / s[ARRIVE.pressure]) ** (h / g) - lambda) / h;
  let p = low;
  let kept = 0;
  for (let round = 0; round < 100 && high - low > tolerance; round++) {
    p = (low * highMiss - high * lowMiss) / (highMiss - lowMiss);
    if (!(p > low && p < high)) p = 0.5 * (low + high);
    throughThroat(p, phi, reservoir);
    const miss = entering[0] - (s[ARRIVE.soundSpeed] * (p / s[ARRIVE.pressure]) ** (h / g) - lambda) / h;
    if (Math.abs(miss) < 1e-12 * lambda) break;
    if (miss > 0) {
      low = p;
      lowMiss = miss;
      if (kept === 1) highMiss *= 0.5;
      kept = 1;
    } else {
      high = p;
      highMiss = miss;
      if (kept === -1) lowMiss *= 0.5;
      kept = -1;
    }
  }
  throughThroat(p, phi, reservoir);
  // Near rest the throat's speed, a root of a small difference, is all round-off; the wave's is not.
  const speed = (s[ARRIVE.soundSpeed] * (p / s[ARRIVE.pressure]) ** (h / g) - lambda) / h;
  answerEntering(
    end,
    p,
    speed > 0 ? speed : 0,
    entering[1],
    reservoir[RESERVOIR.enthalpy],
    reservoir[RESERVOIR.burnt],
  );
}

/** Speed and density after the throat and the mixing, for a face pressure; left in `entering` [m/s, kg/m3]. */
function throughThroat(p: number, phi: number, reservoir: Reservoir): void {
  const p0 = reservoir[RESERVOIR.pressure];
  const g = reservoir[RESERVOIR.gamma];
  const h = 0.5 * (g - 1);
  const a0 = reservoir[RESERVOIR.soundSpeed];
  const critical = (1 / (1 + h)) ** (g / (g - 1));
  const ratio = p / p0 > critical ? p / p0 : critical;
  if (ratio >= 1) {
    entering[0] = 0;
    entering[1] = (g * p) / (a0 * a0);
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
  entering[0] = u;
  entering[1] = (g * p) / (a0 * a0 - h * u * u);
}
