/**
 * Outflow through a nozzle or a partly open end, and the opening that reflects nothing.
 *
 * phi is the throat area over the pipe area. The flow is isentropic to the throat, whose pressure is that outside
 * (p_b = rest pressure here). With starred quantities over the pipe's entropy level (1 here):
 *   ( A^(4/(g-1)) - phi^2 ) U^2 = (2/(g-1)) phi^2 ( A^2 - 1 ),   A = lambda - hU,   h = (g-1)/2.
 * Choked when the throat velocity  U_t = U A^(2/(g-1)) / phi  reaches the throat's sound speed 1; then phi alone fixes
 * the Mach number in the pipe,
 *   phi = M [ (2/(g+1)) (1 + hM^2) ]^(-(g+1)/(2(g-1))),   A = lambda/(1+hM),   beta = lambda (1-hM)/(1+hM).
 *
 * Source: Benson (1982), nozzle at a pipe end; from memory.
 */
import { type EndState, endState } from '../../src/verify/exact/open-end.ts';
import { rootBetween } from '../../src/verify/exact/root.ts';
import { amplitude } from '../../src/verify/exact/simple-wave.ts';

/** Mach number in the pipe ahead of a choked throat of area ratio `phi` < 1 [-]. */
export function chokedPipeMach(phi: number, gamma: number): number {
  const h = (gamma - 1) / 2;
  const exponent = -(gamma + 1) / (2 * (gamma - 1));
  const area = (mach: number): number => mach * ((2 / (gamma + 1)) * (1 + h * mach * mach)) ** exponent;
  return phi >= 1 ? 1 : rootBetween((mach) => area(mach) - phi, 0, 1);
}

/** Outflow for an arriving variable `lambda` >= 1 through a throat of area ratio `phi` in (0, 1]. */
export function partlyOpenOutflow(lambda: number, phi: number, gamma: number): EndState {
  const h = (gamma - 1) / 2;
  const mach = chokedPipeMach(phi, gamma);
  const choked = endState(lambda, (lambda * (1 - h * mach)) / (1 + h * mach), gamma, true);
  const throatVelocity = (u: number, a: number): number => (u * a ** (2 / (gamma - 1))) / phi;
  // At the choked state the throat's sound speed is A sqrt(...) of the pipe's total; it chokes if it lies above p_b.
  const throatSound = choked.soundSpeed * Math.sqrt((2 / (gamma + 1)) * (1 + h * mach * mach));
  if (throatSound >= 1) return choked;
  const residual = (u: number): number => {
    const a = lambda - h * u;
    return a * a + h * u * u - 1 - h * throatVelocity(u, a) ** 2;
  };
  // residual >= 0 with no flow, below zero at the choked velocity.
  const u = lambda === 1 ? 0 : rootBetween(residual, 0, choked.velocity);
  return endState(lambda, lambda - (gamma - 1) * u, gamma, false);
}

/** Reflection of a compression wave of pressure ratio `incident` at a throat of area ratio `phi`. */
export function reflectAtPartlyOpenEnd(incident: number, phi: number, gamma: number): EndState {
  return partlyOpenOutflow(2 * amplitude(incident, gamma) - 1, phi, gamma);
}

/** The opening that reflects nothing of a compression wave of pressure ratio `incident` [-]. */
export function reflectionFreeOpening(incident: number, gamma: number): number {
  return rootBetween((phi) => reflectAtPartlyOpenEnd(incident, phi, gamma).reflectedRatio - 1, 1e-4, 1);
}
