/**
 * How the gas that is left of the last cycle slows a burn and leaves heat unreleased.
 *   duration = stated (1 - 2.1 f_ref)/(1 - 2.1 f), f the mass share of residual gas, as the laminar burning velocity goes with
 *     1 - 2.1 f (M. Metghalchi & J. C. Keck, Combustion and Flame 48 (1982) 191-210; measured for f up to 0.2; value from
 *     memory). Beyond f = 0.3 the factor is held.
 *   completeness = -12.558 + 70.108 SE - 135.67 SE^2 + 114.77 SE^3 - 35.542 SE^4 for 0.51 <= SE <= 0.90 (Blair 1996, value
 *     from memory), taken over its value at 0.9, at most 1, and held beyond either end of the fit.
 */

/** Loss of burning velocity with the share of residual gas [-], and where the loss is no longer followed. */
const SLOWING = 2.1;
export const MOST_RESIDUAL = 0.3;
/** Where the fit of the completeness begins and ends [-]. */
export const LEAST_EFFICIENCY = 0.51;
const MOST_EFFICIENCY = 0.9;

/** Duration of a burn over the stated one [-]; f and the residual that the stated one belongs to are shares by mass. */
export function durationFactor(residual: number, reference: number): number {
  const speed = (f: number): number => 1 - SLOWING * Math.max(0, Math.min(MOST_RESIDUAL, f));
  return speed(reference) / speed(residual);
}

/** Heat released over that of a well scavenged charge, from the fresh share of the trapped charge [-]. */
export function completenessFactor(scavengingEfficiency: number): number {
  const se = Math.max(LEAST_EFFICIENCY, Math.min(MOST_EFFICIENCY, scavengingEfficiency));
  return Math.min(1, fitted(se) / fitted(MOST_EFFICIENCY));
}

function fitted(se: number): number {
  return -12.558 + se * (70.108 + se * (-135.67 + se * (114.77 - 35.542 * se)));
}
