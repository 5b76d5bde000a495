/**
 * Stage 3 of the finite-volume scheme: the ends' answers, and the cells by their balances,
 *   d(rho V)/dt   = -[rho u F],             d(rho Y V)/dt = -[rho u Y F]
 *   d(rho u V)/dt = -[(I - p) F] - rho G V, I = rho u^2 + p on the faces, p the cell's pressure at mid-step
 *   d(E V)/dt     = -[(E + p) u F] + q V
 * p stands for the wall's push, p dF, so that gas at rest under one pressure has nothing on the right, whatever the shape.
 * Source: Toro 2009, chapter 16 (sources beside a flux scheme, from memory); the balanced form derived here.
 */

import { ANSWER, type DuctEnd } from '../../duct/duct-end.ts';
import { CLOCK, type Clock } from '../../march/clock.ts';
import { type DuctState, GHOSTS } from '../conservative/state.ts';

/** Takes an end's answer into the face there. */
export function take(duct: DuctState, end: DuctEnd, j: number, impulse: Float64Array): void {
  const out = end.answer;
  impulse[j] = out[ANSWER.pressure] + (out[ANSWER.mass] * out[ANSWER.velocity]) / end.area;
  duct.massFlux[j] = end.side * out[ANSWER.mass];
  duct.energyFlux[j] = end.side * out[ANSWER.energy];
  duct.burntFlux[j] = end.side * out[ANSWER.burntMass];
}

/** Writes the state after the step into `next`, and the heat taken from the walls. */
export function update(duct: DuctState, impulse: Float64Array, middle: Float64Array, clock: Clock): void {
  const dt = clock[CLOCK.dt];
  const { massFlux, energyFlux, burntFlux, frictionOverD, heatOverD, wallTemperature, cells } = duct;
  const { uLeft, uRight, T } = duct;
  const { faceArea, volume } = duct.geometry;
  const { now, next } = duct;
  let heated = 0;
  for (let i = 0; i < cells; i++) {
    const over = dt / volume[i];
    const vel = 0.5 * (uRight[i] + uLeft[i + 1]);
    const drag = frictionOverD[i] * now.density[i] * Math.abs(vel) * vel;
    const heat = heatOverD[i] * (wallTemperature[i] - T[i + GHOSTS]);
    const push = (impulse[i + 1] - middle[i]) * faceArea[i + 1] - (impulse[i] - middle[i]) * faceArea[i];
    next.density[i] = now.density[i] - over * (massFlux[i + 1] - massFlux[i]);
    next.momentum[i] = now.momentum[i] - over * push - dt * drag;
    next.energy[i] = now.energy[i] - over * (energyFlux[i + 1] - energyFlux[i]) + dt * heat;
    if (duct.mixed) next.burnt[i] = now.burnt[i] - over * (burntFlux[i + 1] - burntFlux[i]);
    heated += heat * volume[i];
  }
  duct.heatTaken = heated * dt;
}
