/**
 * What a change of weather does to the charge before anything is computed: air is thinner as p/T. Torque follows the mass of
 * air, and a carburettor, which meters by volume, runs richer in thin air and leaner in thick. Common practice, no source.
 */

import type { Engine } from '../model/engine.ts';

/** Changes that are told: so much warmer [K], so much less pressure [Pa], so much less fuel [-]. */
export const WARMER = 10;
export const LOWER = 2000;
/** One size of a main jet, about [-]. Common practice, no source. */
export const LEANER = 0.04;

/** Share by which the air is thinner when it is warmer, and when its pressure is lower [-]. */
export function thinnerAir({ pressure, temperature }: Engine['ambient']): {
  readonly warmer: number;
  readonly lower: number;
} {
  return { warmer: 1 - temperature / (temperature + WARMER), lower: LOWER / pressure };
}
