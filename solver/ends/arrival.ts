/**
 * Relations along the characteristic that arrives at a duct end, in the outward direction (u > 0 leaves the duct):
 *   lambda = a + (gamma-1)/2 u   is carried to the face; the wave that leaves the face changes the gas isentropically:
 *   a_f = a (p_f/p)^((gamma-1)/2gamma),   u_f = (lambda - a_f) 2/(gamma-1).
 * Gas that enters the duct brings its own entropy; pressure and velocity are equal on both sides of the contact, so the
 * same relation holds for the gas that was there before. Source: Benson 1982 (from memory), identity derived here.
 */

import { ANSWER, ARRIVE, type DuctEnd } from '../duct/duct-end.ts';

/** lambda of the arriving characteristic [m/s]. */
export function arrivingLambda(end: DuctEnd): number {
  const s = end.arrive;
  return s[ARRIVE.soundSpeed] + 0.5 * (s[ARRIVE.gamma] - 1) * s[ARRIVE.velocity];
}

/** Pressure at which the arriving gas would come to rest on the face [Pa]. */
export function restPressure(end: DuctEnd): number {
  const s = end.arrive;
  const g = s[ARRIVE.gamma];
  return s[ARRIVE.pressure] * (arrivingLambda(end) / s[ARRIVE.soundSpeed]) ** ((2 * g) / (g - 1));
}

/** Answers with gas leaving the duct, given the face's sound speed [m/s], isentropic from the arriving state. */
export function answerLeaving(end: DuctEnd, soundSpeed: number, velocity: number): void {
  const s = end.arrive;
  const out = end.answer;
  const { gas } = end.owner;
  const g = s[ARRIVE.gamma];
  const ratio = soundSpeed / s[ARRIVE.soundSpeed];
  const pressure = s[ARRIVE.pressure] * ratio ** ((2 * g) / (g - 1));
  const temperature = s[ARRIVE.temperature] * ratio * ratio;
  const burnt = s[ARRIVE.burnt];
  const density = pressure / (gas.gasConstant(burnt) * temperature);
  const mass = density * velocity * end.area;
  out[ANSWER.density] = density;
  out[ANSWER.velocity] = velocity;
  out[ANSWER.pressure] = pressure;
  out[ANSWER.burnt] = burnt;
  out[ANSWER.mass] = mass;
  out[ANSWER.energy] = mass * (gas.enthalpy(temperature, burnt) + 0.5 * velocity * velocity);
  out[ANSWER.burntMass] = mass * burnt;
}

/**
 * Answers with gas entering the duct: face pressure [Pa], speed into the duct [m/s], density [kg/m3], and the stagnation
 * enthalpy [J/kg] and burnt fraction that it brings.
 */
export function answerEntering(
  end: DuctEnd,
  pressure: number,
  speed: number,
  density: number,
  enthalpy: number,
  burnt: number,
): void {
  const out = end.answer;
  const mass = -density * speed * end.area;
  out[ANSWER.density] = density;
  out[ANSWER.velocity] = -speed;
  out[ANSWER.pressure] = pressure;
  out[ANSWER.burnt] = burnt;
  out[ANSWER.mass] = mass;
  out[ANSWER.energy] = mass * enthalpy;
  out[ANSWER.burntMass] = mass * burnt;
}
