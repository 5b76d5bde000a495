/**
 * Stage 5: fluxes of the face states, and the conservative update
 *   d(rho V)/dt   = -[rho u F],          d(rho u V)/dt = -[rho u^2 F] - (F_left + F_right)/2 [p] - rho G V
 *   d(rho E V)/dt = -[rho u h0 F] + q V, d(rho Y V)/dt = -[rho u Y F]
 * The area term of the momentum balance is the mean of the two face pressures times the change of area, so that gas at
 * rest under uniform pressure stays at rest to the last bit whatever the shape. End faces are filled by the boundaries.
 */

import { TABLE_LAST_ROW, TABLE_START, TABLE_STEP } from '../../gas/gas-model.ts';
import { CLOCK, type Clock } from '../../march/clock.ts';
import { type DuctState, GHOSTS } from './state.ts';

/** Fluxes of the interior faces from the star states. */
export function fluxes(duct: DuctState): void {
  if (duct.gas.perfect) fluxesPerfect(duct);
  else fluxesBlend(duct);
}

function fluxesPerfect(duct: DuctState): void {
  const { rStar, uStar, pStar, massFlux, momentumFlux, energyFlux, cells } = duct;
  const { faceArea } = duct.geometry;
  const { gas } = duct;
  const cpOverR = 1 + gas.perfectCv / gas.gasConstantFresh;
  for (let j = 1; j < cells; j++) {
    const u = uStar[j];
    const flow = rStar[j] * u * faceArea[j];
    massFlux[j] = flow;
    momentumFlux[j] = flow * u;
    energyFlux[j] = flow * ((cpOverR * pStar[j]) / rStar[j] + 0.5 * u * u);
  }
}

function fluxesBlend(duct: DuctState): void {
  const { rStar, uStar, pStar, yStar, massFlux, momentumFlux, energyFlux, burntFlux, cells } = duct;
  const { faceArea } = duct.geometry;
  const table = duct.gas.table;
  const Rf = duct.gas.gasConstantFresh;
  const dR = duct.gas.gasConstantBurnt - Rf;
  const rowsPerKelvin = 1 / TABLE_STEP;
  for (let j = 1; j < cells; j++) {
    const u = uStar[j];
    const share = yStar[j];
    const RT = pStar[j] / rStar[j];
    const temperature = RT / (Rf + dR * share);
    const position = (temperature - TABLE_START) * rowsPerKelvin;
    const row = position <= 0 ? 0 : position >= TABLE_LAST_ROW ? TABLE_LAST_ROW : position | 0;
    const dT = temperature - (TABLE_START + row * TABLE_STEP);
    const at = 6 * row;
    const fresh = table[at] + dT * (table[at + 1] + 0.5 * dT * table[at + 2]);
    const burnt = table[at + 3] + dT * (table[at + 4] + 0.5 * dT * table[at + 5]);
    const flow = rStar[j] * u * faceArea[j];
    massFlux[j] = flow;
    momentumFlux[j] = flow * u;
    energyFlux[j] = flow * (fresh + share * (burnt - fresh) + RT + 0.5 * u * u);
    burntFlux[j] = flow * share;
  }
}

/** Writes the state after the step into `next`, and the heat taken from the walls. */
export function update(duct: DuctState, clock: Clock): void {
  const dt = clock[CLOCK.dt];
  const { massFlux, momentumFlux, energyFlux, pStar, uStar, cells } = duct;
  const { faceArea, volume } = duct.geometry;
  const { density, momentum, energy } = duct.now;
  const { frictionOverD, heatOverD, wallTemperature, T } = duct;
  const nextDensity = duct.next.density;
  const nextMomentum = duct.next.momentum;
  const nextEnergy = duct.next.energy;
  let heated = 0;
  for (let i = 0; i < cells; i++) {
    const over = dt / volume[i];
    const mean = 0.5 * (uStar[i] + uStar[i + 1]);
    const drag = frictionOverD[i] * density[i] * Math.abs(mean) * mean;
    const heat = heatOverD[i] * (wallTemperature[i] - T[i + GHOSTS]);
    nextDensity[i] = density[i] - over * (massFlux[i + 1] - massFlux[i]);
    nextMomentum[i] =
      momentum[i] -
      over *
        (momentumFlux[i + 1] -
          momentumFlux[i] +
          0.5 * (faceArea[i] + faceArea[i + 1]) * (pStar[i + 1] - pStar[i])) -
      dt * drag;
    nextEnergy[i] = energy[i] - over * (energyFlux[i + 1] - energyFlux[i]) + dt * heat;
    heated += heat * volume[i];
  }
  if (duct.mixed) updateBurnt(duct, clock);
  duct.heatTaken = heated * dt;
}

function updateBurnt(duct: DuctState, clock: Clock): void {
  const dt = clock[CLOCK.dt];
  const { burntFlux, cells } = duct;
  const { volume } = duct.geometry;
  const { burnt } = duct.now;
  const next = duct.next.burnt;
  for (let i = 0; i < cells; i++) next[i] = burnt[i] - (dt / volume[i]) * (burntFlux[i + 1] - burntFlux[i]);
}
