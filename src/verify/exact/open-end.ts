/**
 * Reflection of a wave at the open end of a pipe, gas at rest ahead, surroundings at the pressure of that gas.
 *
 * Riemann variables in units of the rest sound speed, outward normal:  lambda = A + hU arrives, beta = A - hU leaves,
 * h = (g-1)/2, U > 0 outwards. A wave of amplitude X_i arrives as lambda = 2 X_i - 1 and leaves as beta = 2 X_r - 1.
 * Outflow, p = p_b:        beta = 2 pi - lambda,  pi = (p_b/p_ref)^((g-1)/2g).
 * Choked outflow, from lambda/pi >= (g+1)/2:  A = U,  beta = lambda (3-g)/(g+1).
 * Inflow through a loss-free bellmouth: energy  A^2 + hU^2 = A_0^2  from rest outside to the end. The rougher rule that
 * the end pressure is p_b both ways gives X_r = 2 - X_i.
 *
 * Source: Benson (1982), boundary conditions; from memory. The onset of choking X_i = 1 + (g-1)/4 derived here.
 */
import { amplitude, pressureRatioOf } from './simple-wave.ts';

/** What happens at an end: outward velocity and sound speed over a0, pressure over p0, ratio of the reflected wave. */
export interface EndState {
  readonly velocity: number;
  readonly soundSpeed: number;
  readonly pressureRatio: number;
  readonly reflectedRatio: number;
  readonly choked: boolean;
}

/** The end's state from what arrives and what leaves; homentropic gas. */
export function endState(arriving: number, leaving: number, gamma: number, choked: boolean): EndState {
  const soundSpeed = 0.5 * (arriving + leaving);
  return {
    velocity: (arriving - leaving) / (gamma - 1),
    soundSpeed,
    pressureRatio: pressureRatioOf(soundSpeed, gamma),
    reflectedRatio: pressureRatioOf(0.5 * (leaving + 1), gamma),
    choked,
  };
}

/** Outflow for an arriving variable `lambda`, into surroundings of p_b/p_ref = `backRatio`. */
export function openEndOutflow(lambda: number, gamma: number, backRatio = 1): EndState {
  const pi = amplitude(backRatio, gamma);
  if (lambda < pi) throw new RangeError('the wave draws gas in: this end has inflow');
  if (lambda / pi >= (gamma + 1) / 2)
    return endState(lambda, (lambda * (3 - gamma)) / (gamma + 1), gamma, true);
  return endState(lambda, 2 * pi - lambda, gamma, false);
}

/** Loss-free inflow for an arriving variable `lambda` < 1, from gas at rest at the reference state. */
export function openEndInflow(lambda: number, gamma: number): EndState {
  const h = (gamma - 1) / 2;
  // A = lambda + hV in A^2 + hV^2 = 1, V inwards.
  const inward =
    (-h * lambda + Math.sqrt(h * h * lambda * lambda - (h * h + h) * (lambda * lambda - 1))) / (h * h + h);
  return endState(lambda, lambda + (gamma - 1) * inward, gamma, false);
}

/** Reflection of a wave of pressure ratio `incident` at an open end, in or out as it falls. */
export function reflectAtOpenEnd(incident: number, gamma: number): EndState {
  const lambda = 2 * amplitude(incident, gamma) - 1;
  return lambda >= 1 ? openEndOutflow(lambda, gamma) : openEndInflow(lambda, gamma);
}

/** Reflected pressure ratio under the rule that the end pressure never changes [-]. */
export function constantPressureReflection(incident: number, gamma: number): number {
  return pressureRatioOf(2 - amplitude(incident, gamma), gamma);
}

/** Least incident pressure ratio whose outflow chokes an open end [-]. */
export function openEndChokingRatio(gamma: number): number {
  return pressureRatioOf(1 + (gamma - 1) / 4, gamma);
}

/** Least ratio of the pressure in a tube at rest to that outside at which a burst diaphragm at its end chokes [-]. */
export function diaphragmChokingRatio(gamma: number): number {
  return pressureRatioOf((gamma + 1) / 2, gamma);
}

/** A diaphragm at the end of a tube at rest bursts, p0/p_a = `ratio`; velocities over the tube's rest sound speed. */
export function burstDiaphragm(ratio: number, gamma: number): EndState {
  return openEndOutflow(1, gamma, 1 / ratio);
}
