/**
 * Adiabatic flow with wall friction in a pipe of constant bore, ratios to the state where it chokes.
 *
 * `f` is the Fanning factor (wall shear over dynamic pressure), a quarter of Darcy's:
 *   4 f L_star/D = (1 - M^2)/(g M^2) + (g+1)/(2g) ln[ (g+1) M^2 / (2 + (g-1) M^2) ].
 *
 * Source: Shapiro vol. I, ch. 6; from memory.
 */
import { rootBetween } from './root.ts';

/** 4 f L_star/D (Fanning f), p/p_star, T/T_star, p0/p0_star [-]. */
export interface FannoRatios {
  readonly lengthToChoking: number;
  readonly pressure: number;
  readonly temperature: number;
  readonly totalPressure: number;
}

/** Ratios at a Mach number. */
export function fannoFlow(mach: number, gamma: number): FannoRatios {
  const m2 = mach * mach;
  const temperature = (gamma + 1) / (2 + (gamma - 1) * m2);
  return {
    lengthToChoking: (1 - m2) / (gamma * m2) + ((gamma + 1) / (2 * gamma)) * Math.log(m2 * temperature),
    pressure: Math.sqrt(temperature) / mach,
    temperature,
    totalPressure: temperature ** (-(gamma + 1) / (2 * (gamma - 1))) / mach,
  };
}

/** Subsonic Mach number at which 4 f L/D (Fanning f) of pipe is left to choking [-]. */
export function machBeforeChoking(lengthToChoking: number, gamma: number): number {
  if (lengthToChoking <= 0) return 1;
  return rootBetween((mach) => fannoFlow(mach, gamma).lengthToChoking - lengthToChoking, 1e-8, 1);
}
