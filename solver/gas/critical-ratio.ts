/** Pressure over that at rest where a stream is sonic, (2/(gamma+1))^(gamma/(gamma-1)). Source: NACA Report 1135 (1953). */

import { power } from '../arithmetic/functions.ts';

/** Critical pressure ratio of a gas [-]. */
export function criticalRatio(gamma: number): number {
  return power(2 / (gamma + 1), gamma / (gamma - 1));
}
