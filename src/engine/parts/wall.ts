/**
 * Wall temperature of the pipe: as given at positions from the flange, straight between them and constant beyond; or
 * from the steady balance, per unit of wall,  h_in (T_g - T_w) = h_out (T_w - T_a) + eps sigma (T_w^4 - T_a^4)
 * with the cycle's mean of h_in and of h_in T_g. A thin wall of one temperature through its thickness is assumed.
 */

import { power } from '../../../solver/index.ts';
import type { WallTemperature } from '../../model/pipe.ts';

const STEFAN_BOLTZMANN = 5.670374419e-8;
/** Where the balance starts from [K]. */
const FIRST_GUESS = 600;

/** Wall temperature at a position from the flange [K]; a balance starts from a guess. */
export function wallTemperatureAt(wall: WallTemperature, position: number): number {
  if (wall.by === 'balance') return FIRST_GUESS;
  const { at } = wall;
  let before = at[0];
  if (before === undefined) return FIRST_GUESS;
  for (const point of at) {
    if (position <= point.position) {
      const span = point.position - before.position;
      if (!(span > 0)) return point.temperature;
      const share = Math.max(0, position - before.position) / span;
      return before.temperature + share * (point.temperature - before.temperature);
    }
    before = point;
  }
  return before.temperature;
}

/**
 * Wall temperature that balances the heat [K].
 * @param coefficient mean gas-side coefficient [W/(m2 K)]
 * @param gasTemperature mean gas temperature, weighted by the coefficient [K]
 */
export function balancedWall(
  coefficient: number,
  gasTemperature: number,
  outside: { readonly coefficient: number; readonly emissivity: number; readonly ambient: number },
): number {
  const { ambient, emissivity } = outside;
  let T = Math.max(ambient, 0.5 * (gasTemperature + ambient));
  for (let round = 0; round < 50; round++) {
    const radiation = emissivity * STEFAN_BOLTZMANN;
    const miss =
      coefficient * (gasTemperature - T) -
      outside.coefficient * (T - ambient) -
      radiation * (power(T, 4) - power(ambient, 4));
    const dT = miss / (coefficient + outside.coefficient + 4 * radiation * power(T, 3));
    T += dT;
    if (Math.abs(dT) < 1e-9) break;
  }
  return T;
}
