/**
 * The gas behind an opening, as a duct end sees it: a volume's contents, or the atmosphere. Slots of a small typed array,
 * refreshed by whoever owns it.
 */

import type { GasModel } from '../gas/gas-model.ts';

export const RESERVOIR = {
  pressure: 0,
  temperature: 1,
  burnt: 2,
  gamma: 3,
  soundSpeed: 4,
  enthalpy: 5,
} as const;

export type Reservoir = Float64Array;

export function newReservoir(): Reservoir {
  return new Float64Array(6);
}

/** Sets a reservoir from pressure [Pa], temperature [K] and burnt fraction [-]. */
export function setReservoir(
  reservoir: Reservoir,
  gas: GasModel,
  pressure: number,
  temperature: number,
  burnt: number,
): void {
  const R = gas.gasConstant(burnt);
  const gamma = 1 + R / gas.heatCapacity(temperature, burnt);
  reservoir[RESERVOIR.pressure] = pressure;
  reservoir[RESERVOIR.temperature] = temperature;
  reservoir[RESERVOIR.burnt] = burnt;
  reservoir[RESERVOIR.gamma] = gamma;
  reservoir[RESERVOIR.soundSpeed] = Math.sqrt(gamma * R * temperature);
  reservoir[RESERVOIR.enthalpy] = gas.enthalpy(temperature, burnt);
}
