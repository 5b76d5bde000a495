/**
 * Share of the charge burnt after a share z of the burning time, Wiebe's function x = 1 − exp(−a z^(m+1)).
 * a sets how complete the burn is at z = 1 (6.908 leaves a thousandth), m how late it comes. Source: Wiebe, in the form
 * of Heywood, Internal Combustion Engine Fundamentals (1988), from memory.
 */

export interface Burn {
  /** Start [deg after top dead centre, before is negative] and duration [deg]. */
  readonly startDeg: number;
  readonly durationDeg: number;
  readonly wiebeEfficiency: number;
  readonly wiebeExponent: number;
}

/** Burnt share after a share of the burning time [-]. */
export function burntShare(z: number, a: number, m: number): number {
  if (!(z > 0)) return 0;
  return -Math.expm1(-a * Math.min(z, 1) ** (m + 1));
}

/** Burnt share at a crank angle of any turn, held at its end until the next start [-]. */
export function burntShareAt(burn: Burn, deg: number): number {
  const since = deg - burn.startDeg;
  const turn = since - 360 * Math.floor(since / 360);
  return burntShare(turn / burn.durationDeg, burn.wiebeEfficiency, burn.wiebeExponent);
}

/** Burnt share a degree of crank [1/deg]. */
export function burnRateAt(burn: Burn, deg: number): number {
  const since = deg - burn.startDeg;
  const z = (since - 360 * Math.floor(since / 360)) / burn.durationDeg;
  if (z >= 1) return 0;
  const { wiebeEfficiency: a, wiebeExponent: m } = burn;
  return (a * (m + 1) * z ** m * Math.exp(-a * z ** (m + 1))) / burn.durationDeg;
}
