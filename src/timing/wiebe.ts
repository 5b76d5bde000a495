/**
 * Share of the charge burnt after a share z of the burning time, Wiebe's function x = 1 − exp(−a z^(m+1)).
 * a sets how complete the burn is at z = 1 (6.908 leaves a thousandth), m how late it comes. Source: Wiebe, in the form
 * of Heywood, Internal Combustion Engine Fundamentals (1988), from memory.
 */

import { exponentialLessOne, power } from '../../solver/index.ts';

/** Burnt share after a share of the burning time [-]. */
export function burntShare(z: number, a: number, m: number): number {
  if (!(z > 0)) return 0;
  return -exponentialLessOne(z < 1 ? -a * power(z, m + 1) : -a);
}
