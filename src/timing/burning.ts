/**
 * Whether a mixture can burn at all. Its heat is the fuel's lower heating value less what stays in the CO and H2 of a rich
 * mixture; below 2 (1 + y/4)/φ = 1 atom of oxygen for each of carbon, soot would be left, which the burnt gas does not know.
 */

import { reactionHeat } from '../../solver/index.ts';
import type { Engine } from '../model/engine.ts';

/** Mixtures that a spark lights reliably, as equivalence ratios [-]: common practice, no source. */
export const LIGHTS = { lean: 0.6, rich: 1.7 } as const;

/** Heat that a kilogram of fresh charge sets free [J/kg]; null: too rich to burn without soot. */
export function chargeHeat({
  hydrogenCarbonRatio,
  equivalenceRatio,
  lowerHeatingValue,
}: Engine['fuel']): number | null {
  if (equivalenceRatio >= richestMixture(hydrogenCarbonRatio)) return null;
  try {
    return reactionHeat(hydrogenCarbonRatio, equivalenceRatio, lowerHeatingValue);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** Equivalence ratio beyond which there is not an atom of oxygen for each of carbon [-]. */
export function richestMixture(hydrogenCarbonRatio: number): number {
  return 2 * (1 + hydrogenCarbonRatio / 4);
}
