/**
 * An end that sends nothing back but a prescribed wave: the pipe goes on without end, filled with gas at a reference
 * state at rest, in which a wave of pressure p_i runs towards the duct.
 *   a_f + h u_in = a_i + h u_i = a_ref (2 X_i - 1),  X_i = (p_i/p_ref)^((gamma-1)/2gamma),  h = (gamma-1)/2
 * Against the arriving characteristic this gives pressure and velocity on the face; gas that enters has the entropy of
 * the reference, gas that leaves its own.
 */

import { power } from '../arithmetic/functions.ts';
import { answerEntering, answerLeaving } from '../duct/arrival.ts';
import { ANSWER, ARRIVE, type DuctEnd } from '../duct/duct-end.ts';
import { GAS, newGasPoint } from '../gas/gas-model.ts';
import { RESERVOIR, type Reservoir } from '../gas/reservoir.ts';
import { unconverged } from '../march/unconverged.ts';

const point = newGasPoint();
const ROUNDS = 30;

/** Answers for a non-reflecting end; `incident` is the pressure of the wave that is sent in [Pa]. */
export function answerNonReflecting(end: DuctEnd, reference: Reservoir, incident: number): void {
  const s = end.arrive;
  const out = end.answer;
  const g = s[ARRIVE.gamma];
  const h = 0.5 * (g - 1);
  const lambda = s[ARRIVE.lambda];
  if (s[ARRIVE.velocity] >= s[ARRIVE.soundSpeed]) {
    // Faster than sound outwards: what is beyond has no say.
    out[ANSWER.soundSpeed] = s[ARRIVE.soundSpeed];
    out[ANSWER.velocity] = s[ARRIVE.velocity];
    answerLeaving(end);
    return;
  }
  const p0 = reference[RESERVOIR.pressure];
  const gr = reference[RESERVOIR.gamma];
  const hr = 0.5 * (gr - 1);
  const beyond = reference[RESERVOIR.soundSpeed];
  const sent = beyond * (2 * power(incident / p0, hr / gr) - 1);
  // Each side gives a velocity into the duct at a common pressure; Newton's method on their difference.
  let p = 0.5 * (s[ARRIVE.pressure] + incident);
  let round = 0;
  for (; round < ROUNDS; round++) {
    const inside = s[ARRIVE.soundSpeed] * power(p / s[ARRIVE.pressure], h / g);
    const outside = beyond * power(p / p0, hr / gr);
    const miss = (sent - outside) / hr - (inside - lambda) / h;
    const slope = -(outside / gr + inside / g) / p;
    const next = p - miss / slope;
    const change = Math.abs(next - p);
    p = next > 0.1 * p ? next : 0.1 * p;
    if (change < 1e-14 * p0) break;
  }
  if (round === ROUNDS) unconverged[0]++;
  const inside = s[ARRIVE.soundSpeed] * power(p / s[ARRIVE.pressure], h / g);
  const speed = (inside - lambda) / h;
  out[ANSWER.velocity] = -speed;
  if (speed <= 0) {
    out[ANSWER.soundSpeed] = inside;
    answerLeaving(end);
    return;
  }
  const temperature = reference[RESERVOIR.temperature] * power(p / p0, (gr - 1) / gr);
  point[GAS.temperature] = temperature;
  point[GAS.burnt] = reference[RESERVOIR.burnt];
  end.owner.gas.fillPoint(point);
  out[ANSWER.pressure] = p;
  out[ANSWER.density] = p / (point[GAS.gasConstant] * temperature);
  out[ANSWER.burnt] = reference[RESERVOIR.burnt];
  out[ANSWER.enthalpy] = point[GAS.enthalpy] + 0.5 * speed * speed;
  answerEntering(end);
}
