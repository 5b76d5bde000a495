/**
 * Several duct ends that meet in one place at a common pressure. Flow into the junction is isentropic on each arriving
 * characteristic; what flows out has the mixed stagnation enthalpy and composition of what came in; masses balance.
 * Source: constant-pressure junction, Benson 1982 (from memory), with the mixing of entropy made exact in enthalpy here.
 */

import { power } from '../arithmetic/functions.ts';
import { answerEntering, answerLeaving } from '../duct/arrival.ts';
import { ANSWER, ARRIVE, type DuctEnd } from '../duct/duct-end.ts';
import { GAS, newGasPoint } from '../gas/gas-model.ts';
import { unconverged } from '../march/unconverged.ts';
import { BRACKET, beginSearch, falsePosition, narrow, newBracket } from './bracket.ts';
import { answerClosed } from './closed.ts';

/**
 * Slots of a trial: the common pressure, the mass flow in left over, what the mixed inflow brings, and what it would bring as it
 * dwindles: the gas of the end of highest rest pressure, stagnant.
 */
const TRIAL = { pressure: 0, left: 1, enthalpy: 2, burnt: 3, lastEnthalpy: 4, lastBurnt: 5 } as const;
const trial = new Float64Array(6);
const search = newBracket();
/** Rounds for the common pressure, and for a temperature. */
const ROUNDS = { pressure: 80, temperature: 20 } as const;
const FLOWS = [ANSWER.mass, ANSWER.energy, ANSWER.burntMass] as const;

/** Answers for the ends of a junction. */
export function answerJunction(ends: readonly DuctEnd[]): void {
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  let strongest = ends[0];
  for (const end of ends) {
    const rest = end.arrive[ARRIVE.rest];
    if (rest < low) low = rest;
    if (rest <= high) continue;
    high = rest;
    strongest = end;
  }
  if (high - low <= 1e-14 * high) {
    for (const end of ends) answerClosed(end);
    return;
  }
  fillLast(strongest);
  // At the lowest rest pressure everything flows in, at the highest everything flows out.
  beginSearch(search);
  search[BRACKET.low] = low;
  search[BRACKET.high] = high;
  trial[TRIAL.pressure] = low;
  balance(ends);
  search[BRACKET.lowMiss] = trial[TRIAL.left];
  trial[TRIAL.pressure] = high;
  balance(ends);
  search[BRACKET.highMiss] = trial[TRIAL.left];
  const enough = 1e-13 * (search[BRACKET.lowMiss] - search[BRACKET.highMiss]);
  let round = 0;
  for (; round < ROUNDS.pressure; round++) {
    if (!(search[BRACKET.high] - search[BRACKET.low] > 1e-14 * search[BRACKET.high])) break;
    falsePosition(search);
    trial[TRIAL.pressure] = search[BRACKET.trial];
    balance(ends);
    search[BRACKET.miss] = trial[TRIAL.left];
    if (Math.abs(search[BRACKET.miss]) <= enough) break;
    narrow(search);
  }
  if (round === ROUNDS.pressure) unconverged[0]++;
  settle(ends);
}

/** Fills all answers for the common pressure of the trial, and the mass flow into the junction left over [kg/s]. */
function balance(ends: readonly DuctEnd[]): void {
  let mass = 0;
  let energy = 0;
  let burnt = 0;
  for (const end of ends) {
    const out = end.answer;
    fillVelocity(end);
    if (out[ANSWER.velocity] <= 0) continue;
    answerLeaving(end);
    mass += out[ANSWER.mass];
    energy += out[ANSWER.energy];
    burnt += out[ANSWER.burntMass];
  }
  trial[TRIAL.enthalpy] = mass > 0 ? energy / mass : trial[TRIAL.lastEnthalpy];
  trial[TRIAL.burnt] = mass > 0 ? burnt / mass : trial[TRIAL.lastBurnt];
  let left = mass;
  for (const end of ends) {
    if (end.answer[ANSWER.velocity] > 0) continue;
    enter(end);
    left += end.answer[ANSWER.mass];
  }
  trial[TRIAL.left] = left;
}

/** Velocity out of a duct, and the sound speed that goes with it, at the pressure of the trial. */
function fillVelocity(end: DuctEnd): void {
  const s = end.arrive;
  const h = 0.5 * (s[ARRIVE.gamma] - 1);
  const lambda = s[ARRIVE.lambda];
  const sound = s[ARRIVE.soundSpeed] * power(trial[TRIAL.pressure] / s[ARRIVE.pressure], h / s[ARRIVE.gamma]);
  const speed = (lambda - sound) / h;
  end.answer[ANSWER.velocity] = speed;
  end.answer[ANSWER.soundSpeed] = lambda - h * speed;
}

const point = newGasPoint();

/** Fills what the gas of an end brings once it has come to rest. */
function fillLast(end: DuctEnd): void {
  const s = end.arrive;
  const ratio = s[ARRIVE.lambda] / s[ARRIVE.soundSpeed];
  point[GAS.temperature] = s[ARRIVE.temperature] * ratio * ratio;
  point[GAS.burnt] = s[ARRIVE.burnt];
  end.owner.gas.fillPoint(point);
  trial[TRIAL.lastEnthalpy] = point[GAS.enthalpy];
  trial[TRIAL.lastBurnt] = s[ARRIVE.burnt];
}

/** Answers with the mixed inflow entering a duct, its velocity being known: density from its stagnation enthalpy. */
function enter(end: DuctEnd): void {
  const out = end.answer;
  const { gas } = end.owner;
  const velocity = out[ANSWER.velocity];
  const enthalpy = trial[TRIAL.enthalpy];
  const target = enthalpy - 0.5 * velocity * velocity;
  let T = end.arrive[ARRIVE.temperature];
  point[GAS.burnt] = trial[TRIAL.burnt];
  let round = 0;
  for (; round < ROUNDS.temperature; round++) {
    point[GAS.temperature] = T;
    gas.fillPoint(point);
    const dT = (target - point[GAS.enthalpy]) / (point[GAS.heatCapacity] + point[GAS.gasConstant]);
    T += dT;
    if (Math.abs(dT) < 1e-12 * T) break;
  }
  if (round === ROUNDS.temperature) unconverged[0]++;
  out[ANSWER.pressure] = trial[TRIAL.pressure];
  out[ANSWER.density] = trial[TRIAL.pressure] / (point[GAS.gasConstant] * T);
  out[ANSWER.burnt] = trial[TRIAL.burnt];
  out[ANSWER.enthalpy] = enthalpy;
  answerEntering(end);
}

/** Spreads the round-off left over the entering ends, so that what comes in goes out to the last digit. */
function settle(ends: readonly DuctEnd[]): void {
  for (const slot of FLOWS) {
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
