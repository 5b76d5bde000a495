/**
 * The gas behind an opening, as a duct end sees it: a volume's contents, or the atmosphere. Slots of a small typed array,
 * refreshed by whoever owns it.
 */

import { unconverged } from '../march/unconverged.ts';
import { GAS, type GasModel, type GasPoint, NEAR_ENOUGH, newGasPoint } from './gas-model.ts';

export const RESERVOIR = {
  pressure: 0,
  temperature: 1,
  burnt: 2,
  gamma: 3,
  soundSpeed: 4,
  enthalpy: 5,
  /** Share of other gas to be mixed in [-]. */
  admixed: 6,
} as const;

export type Reservoir = Float64Array;

export function newReservoir(): Reservoir {
  return new Float64Array(7);
}

/** Sets a reservoir from pressure [Pa], temperature [K] and burnt fraction [-]. */
export function setReservoir(
  reservoir: Reservoir,
  gas: GasModel,
  pressure: number,
  temperature: number,
  burnt: number,
): void {
  reservoir[RESERVOIR.pressure] = pressure;
  reservoir[RESERVOIR.temperature] = temperature;
  reservoir[RESERVOIR.burnt] = burnt;
  completeReservoir(reservoir, gas);
}

const point = newGasPoint();

/** Fills what follows from a reservoir's pressure, temperature and burnt fraction. */
export function completeReservoir(reservoir: Reservoir, gas: GasModel): void {
  const temperature = reservoir[RESERVOIR.temperature];
  point[GAS.temperature] = temperature;
  point[GAS.burnt] = reservoir[RESERVOIR.burnt];
  gas.fillPoint(point);
  const R = point[GAS.gasConstant];
  const gamma = 1 + R / point[GAS.heatCapacity];
  reservoir[RESERVOIR.gamma] = gamma;
  reservoir[RESERVOIR.soundSpeed] = Math.sqrt(gamma * R * temperature);
  reservoir[RESERVOIR.enthalpy] = point[GAS.enthalpy];
}

/** Mixes other gas into a reservoir at its pressure, to its `admixed` share; enthalpy and composition are means by mass. */
export function blendReservoir(reservoir: Reservoir, gas: GasModel, other: GasPoint): void {
  const share = reservoir[RESERVOIR.admixed];
  const T0 = reservoir[RESERVOIR.temperature];
  const y0 = reservoir[RESERVOIR.burnt];
  const h = (1 - share) * reservoir[RESERVOIR.enthalpy] + share * other[GAS.enthalpy];
  let T = T0 + share * (other[GAS.temperature] - T0);
  point[GAS.burnt] = y0 + share * (other[GAS.burnt] - y0);
  let change = 0;
  for (let round = 0; round < 6; round++) {
    point[GAS.temperature] = T;
    gas.fillPoint(point);
    change = (h - point[GAS.enthalpy]) / (point[GAS.heatCapacity] + point[GAS.gasConstant]);
    T += change;
    if (Math.abs(change) < NEAR_ENOUGH * T) break;
  }
  if (!(Math.abs(change) < NEAR_ENOUGH * T)) unconverged[0]++;
  reservoir[RESERVOIR.temperature] = T;
  reservoir[RESERVOIR.burnt] = point[GAS.burnt];
  completeReservoir(reservoir, gas);
  reservoir[RESERVOIR.enthalpy] = h;
}
