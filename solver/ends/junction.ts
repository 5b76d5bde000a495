/**
 * Several duct ends that meet in one place at a common pressure. Flow into the junction is isentropic on each arriving
 * characteristic; what flows out has the mixed stagnation enthalpy and composition of what came in; masses balance.
 * Source: constant-pressure junction, Benson 1982 (from memory), with the mixing of entropy made exact in enthalpy here.
 */

import { ANSWER, ARRIVE, type DuctEnd } from '../duct/duct-end.ts';
import { answerEntering, answerLeaving, arrivingLambda, restPressure } from './arrival.ts';
import { answerClosed } from './closed.ts';

/** Answers for the ends of a junction. */
export function answerJunction(ends: readonly DuctEnd[]): void {
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  for (const end of ends) {
    const rest = restPressure(end);
    if (rest < low) low = rest;
    if (rest > high) high = rest;
  }
  if (high - low <= 1e-14 * high) {
    for (const end of ends) answerClosed(end);
    return;
  }
  // At the lowest rest pressure everything flows in, at the highest everything flows out; Illinois form of false position.
  let lowMiss = balance(ends, low);
  let highMiss = balance(ends, high);
  const enough = 1e-13 * (lowMiss - highMiss);
  let p = low;
  let kept = 0;
  for (let round = 0; round < 80 && high - low > 1e-14 * high; round++) {
    p = (low * highMiss - high * lowMiss) / (highMiss - lowMiss);
    if (!(p > low && p < high)) p = 0.5 * (low + high);
    const miss = balance(ends, p);
    if (Math.abs(miss) <= enough) break;
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
  settle(ends);
}

/** Fills all answers for a common pressure; returns the mass flow into the junction left over [kg/s]. */
function balance(ends: readonly DuctEnd[], p: number): number {
  let mass = 0;
  let energy = 0;
  let burnt = 0;
  for (const end of ends) {
    const speed = speedOut(end, p);
    if (speed <= 0) continue;
    const s = end.arrive;
    const h = 0.5 * (s[ARRIVE.gamma] - 1);
    answerLeaving(end, arrivingLambda(end) - h * speed, speed);
    mass += end.answer[ANSWER.mass];
    energy += end.answer[ANSWER.energy];
    burnt += end.answer[ANSWER.burntMass];
  }
  const enthalpy = mass > 0 ? energy / mass : 0;
  const share = mass > 0 ? burnt / mass : 0;
  let left = mass;
  for (const end of ends) {
    const speed = speedOut(end, p);
    if (speed > 0) continue;
    const density = enteringDensity(end, p, -speed, enthalpy, share);
    answerEntering(end, p, -speed, density, enthalpy, share);
    left += end.answer[ANSWER.mass];
  }
  return left;
}

function speedOut(end: DuctEnd, p: number): number {
  const s = end.arrive;
  const h = 0.5 * (s[ARRIVE.gamma] - 1);
  return (arrivingLambda(end) - s[ARRIVE.soundSpeed] * (p / s[ARRIVE.pressure]) ** (h / s[ARRIVE.gamma])) / h;
}

function enteringDensity(end: DuctEnd, p: number, speed: number, enthalpy: number, burnt: number): number {
  const { gas } = end.owner;
  const R = gas.gasConstant(burnt);
  const target = enthalpy - 0.5 * speed * speed;
  let T = end.arrive[ARRIVE.temperature];
  for (let round = 0; round < 20; round++) {
    const dT = (target - gas.enthalpy(T, burnt)) / (gas.heatCapacity(T, burnt) + R);
    T += dT;
    if (Math.abs(dT) < 1e-12 * T) break;
  }
  return p / (R * T);
}

/** Spreads the round-off left over the entering ends, so that what comes in goes out to the last digit. */
function settle(ends: readonly DuctEnd[]): void {
  for (const slot of [ANSWER.mass, ANSWER.energy, ANSWER.burntMass]) {
    let inflow = 0;
    let outflow = 0;
    for (const end of ends) {
      if (end.answer[ANSWER.velocity] > 0) inflow += end.answer[slot];
      else outflow -= end.answer[slot];
    }
    const share = outflow !== 0 ? inflow / outflow : 1;
    for (const end of ends) if (!(end.answer[ANSWER.velocity] > 0)) end.answer[slot] *= share;
  }
}
