/**
 * The stages of a step in order, and the hand-over at the two ends. Each stage is a small function of its own: one large
 * function for the whole step runs several times slower, because the compiler gives up on it.
 */

import { completeArrival } from '../../duct/arrival.ts';
import { ANSWER, ARRIVE, type DuctEnd } from '../../duct/duct-end.ts';
import type { Clock } from '../../march/clock.ts';
import { fluxes, update } from './advance.ts';
import { reconstruct } from './faces.ts';
import { fallBack, meet } from './meet.ts';
import { type DuctState, GHOSTS } from './state.ts';
import { trace } from './trace.ts';

/** Traces the characteristics over the step and fills what arrives at both ends. */
export function arrivals(duct: DuctState, clock: Clock): void {
  reconstruct(duct);
  trace(duct, clock);
  const n = duct.cells;
  if (!(duct.rRight[0] > 0 && duct.pRight[0] > 0)) fallBack(duct, 0, GHOSTS, false);
  if (!(duct.rLeft[n] > 0 && duct.pLeft[n] > 0)) fallBack(duct, n, n + GHOSTS - 1, true);
  hand(duct, duct.left);
  hand(duct, duct.right);
}

/** Fills what arrives at an end from the state traced to its face. */
export function hand(duct: DuctState, end: DuctEnd): void {
  const s = end.arrive;
  const { gas, cells } = duct;
  const left = end.side < 0;
  const r = left ? duct.rRight[0] : duct.rLeft[cells];
  const u = left ? duct.uRight[0] : duct.uLeft[cells];
  const p = left ? duct.pRight[0] : duct.pLeft[cells];
  const y = left ? duct.yRight[0] : duct.yLeft[cells];
  const gamma = duct.gamma[left ? GHOSTS : cells + GHOSTS - 1];
  const burnt = duct.mixed ? y : 0;
  s[ARRIVE.density] = r;
  s[ARRIVE.velocity] = end.side * u;
  s[ARRIVE.pressure] = p;
  s[ARRIVE.burnt] = burnt;
  s[ARRIVE.gamma] = gamma;
  s[ARRIVE.soundSpeed] = Math.sqrt((gamma * p) / r);
  s[ARRIVE.temperature] = p / (r * gas.gasConstant(burnt));
  completeArrival(end);
}

/** Takes the ends' answers and updates the duct over the step. */
export function advance(duct: DuctState, clock: Clock): void {
  meet(duct);
  fluxes(duct);
  take(duct, duct.left, 0);
  take(duct, duct.right, duct.cells);
  update(duct, clock);
}

/** Takes an end's answer into the face there. */
export function take(duct: DuctState, end: DuctEnd, j: number): void {
  const out = end.answer;
  duct.rStar[j] = out[ANSWER.density];
  duct.uStar[j] = end.side * out[ANSWER.velocity];
  duct.pStar[j] = out[ANSWER.pressure];
  duct.massFlux[j] = end.side * out[ANSWER.mass];
  duct.momentumFlux[j] = out[ANSWER.mass] * out[ANSWER.velocity];
  duct.energyFlux[j] = end.side * out[ANSWER.energy];
  if (duct.mixed) duct.burntFlux[j] = end.side * out[ANSWER.burntMass];
}
