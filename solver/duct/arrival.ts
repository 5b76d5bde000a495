/**
 * Relations along the characteristic that arrives at a duct end, in the outward direction (u > 0 leaves the duct):
 *   lambda = a + (gamma-1)/2 u   is carried to the face; the wave that leaves the face changes the gas isentropically:
 *   a_f = a (p_f/p)^((gamma-1)/2gamma),   u_f = (lambda - a_f) 2/(gamma-1).
 * Gas that enters the duct brings its own entropy; pressure and velocity are equal on both sides of the contact, so the
 * same relation holds for the gas that was there before. Source: Benson 1982 (from memory), identity derived here.
 */

import { power } from '../arithmetic/functions.ts';
import { GAS, newGasPoint } from '../gas/gas-model.ts';
import { ANSWER, ARRIVE, type DuctEnd } from './duct-end.ts';

/** Fills what follows from the arriving state. The rest pressure is 0 where the gas flees faster than it can expand. */
export function completeArrival(end: DuctEnd): void {
  const s = end.arrive;
  const g = s[ARRIVE.gamma];
  const lambda = s[ARRIVE.soundSpeed] + 0.5 * (g - 1) * s[ARRIVE.velocity];
  s[ARRIVE.lambda] = lambda;
  s[ARRIVE.rest] =
    lambda > 0 ? s[ARRIVE.pressure] * power(lambda / s[ARRIVE.soundSpeed], (2 * g) / (g - 1)) : 0;
}

const point = newGasPoint();

/** Completes the answer of gas that leaves the duct, from its sound speed and velocity: isentropic from the arriving state. */
export function answerLeaving(end: DuctEnd): void {
  const s = end.arrive;
  const out = end.answer;
  const g = s[ARRIVE.gamma];
  const ratio = out[ANSWER.soundSpeed] / s[ARRIVE.soundSpeed];
  const pressure = s[ARRIVE.pressure] * power(ratio, (2 * g) / (g - 1));
  const temperature = s[ARRIVE.temperature] * ratio * ratio;
  const burnt = s[ARRIVE.burnt];
  point[GAS.temperature] = temperature;
  point[GAS.burnt] = burnt;
  end.owner.gas.fillPoint(point);
  const density = pressure / (point[GAS.gasConstant] * temperature);
  const velocity = out[ANSWER.velocity];
  const mass = density * velocity * end.area;
  out[ANSWER.density] = density;
  out[ANSWER.pressure] = pressure;
  out[ANSWER.burnt] = burnt;
  out[ANSWER.mass] = mass;
  out[ANSWER.energy] = mass * (point[GAS.enthalpy] + 0.5 * velocity * velocity);
  out[ANSWER.burntMass] = mass * burnt;
}

/** Completes the answer of gas that enters the duct, from its face state and the stagnation enthalpy that it brings. */
export function answerEntering(end: DuctEnd): void {
  const out = end.answer;
  const mass = out[ANSWER.density] * out[ANSWER.velocity] * end.area;
  out[ANSWER.mass] = mass;
  out[ANSWER.energy] = mass * out[ANSWER.enthalpy];
  out[ANSWER.burntMass] = mass * out[ANSWER.burnt];
}
