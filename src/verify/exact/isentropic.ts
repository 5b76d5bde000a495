/**
 * Steady isentropic flow of an ideal gas: ratios to the total state, and the area needed to pass the flow.
 *
 *   T0/T = 1 + (g-1)/2 M^2,   A/A_star = (1/M) [ (2/(g+1)) (1 + (g-1)/2 M^2) ]^((g+1)/(2(g-1))).
 *
 * Source: NACA Report 1135 (1953); from memory.
 */
import { rootBetween } from './root.ts';

/** Static over total pressure, density and temperature, and A/A_star [-]. */
export interface IsentropicRatios {
  readonly pressure: number;
  readonly density: number;
  readonly temperature: number;
  readonly area: number;
}

/** Area over the sonic area [-]. */
export function areaRatio(mach: number, gamma: number): number {
  const warm = (2 / (gamma + 1)) * (1 + ((gamma - 1) / 2) * mach * mach);
  return warm ** ((gamma + 1) / (2 * (gamma - 1))) / mach;
}

/** Ratios at a Mach number. */
export function isentropicFlow(mach: number, gamma: number): IsentropicRatios {
  const temperature = 1 / (1 + ((gamma - 1) / 2) * mach * mach);
  return {
    temperature,
    density: temperature ** (1 / (gamma - 1)),
    pressure: temperature ** (gamma / (gamma - 1)),
    area: areaRatio(mach, gamma),
  };
}

/** Mach number at p/p0 = `ratio` <= 1 [-]. */
export function machOfPressure(ratio: number, gamma: number): number {
  return Math.sqrt((2 / (gamma - 1)) * (ratio ** (-(gamma - 1) / gamma) - 1));
}

/** Mach number at A/A_star = `ratio` >= 1, on the subsonic or the supersonic branch [-]. */
export function machOfArea(ratio: number, gamma: number, branch: 'subsonic' | 'supersonic'): number {
  if (ratio < 1) throw new RangeError(`A/A_star = ${ratio} passes no steady flow`);
  if (ratio === 1) return 1;
  // Residual in 1/ratio, which stays finite at M = 0.
  const gap = (mach: number): number => 1 / areaRatio(mach, gamma) - 1 / ratio;
  if (branch === 'subsonic') return rootBetween(gap, Number.MIN_VALUE, 1);
  let high = 2;
  while (gap(high) > 0) high *= 2;
  return rootBetween(gap, 1, high);
}
