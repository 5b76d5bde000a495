/**
 * Frictionless flow with heat added or withdrawn in a pipe of constant bore, ratios to the state where it chokes.
 *
 * Momentum keeps p + rho u^2:  p/p_star = (1+g)/(1+g M^2);  T/T_star = M^2 (p/p_star)^2.
 *
 * Source: Shapiro vol. I, ch. 7; from memory.
 */
import { rootBetween } from './root.ts';

/** T0/T0_star, T/T_star, p/p_star, p0/p0_star [-]. */
export interface RayleighRatios {
  readonly totalTemperature: number;
  readonly temperature: number;
  readonly pressure: number;
  readonly totalPressure: number;
}

/** Ratios at a Mach number. */
export function rayleighFlow(mach: number, gamma: number): RayleighRatios {
  const m2 = mach * mach;
  const pressure = (1 + gamma) / (1 + gamma * m2);
  const temperature = m2 * pressure * pressure;
  const warm = (2 / (gamma + 1)) * (1 + ((gamma - 1) / 2) * m2);
  return {
    totalTemperature: temperature * warm,
    temperature,
    pressure,
    totalPressure: pressure * warm ** (gamma / (gamma - 1)),
  };
}

/** Subsonic Mach number at a given T0/T0_star in (0, 1] [-]. */
export function machOfTotalTemperature(ratio: number, gamma: number): number {
  if (ratio === 1) return 1;
  return rootBetween((mach) => rayleighFlow(mach, gamma).totalTemperature - ratio, 0, 1);
}
