/**
 * The two opposed waves whose superposition a state in a duct is, as the trade counts them: each is the pressure it would
 * have alone upon gas at rest at the reference pressure.
 *   X = (p/p0)^((gamma-1)/2gamma),  a0 = a/X,
 *   X_R = (X+1)/2 + (gamma-1)u/(4 a0),   X_L = (X+1)/2 - (gamma-1)u/(4 a0),   p_R = p0 X_R^(2gamma/(gamma-1)), p_L alike
 * so that X = X_R + X_L - 1 and u = 2 a0 (X_R - X_L)/(gamma-1). a0 is the sound speed that the gas has when it is brought
 * to the reference pressure isentropically, so hot and cold gas alike split rightly.
 * Source: Blair, Design and Simulation of Two-Stroke Engines (1996), chapter 2 (from memory; algebra derived here).
 */

/** Pressure of the wave running with the velocity `along`, positive to the right [Pa]; minus it for the other wave. */
export function wavePressure(
  pressure: number,
  along: number,
  soundSpeed: number,
  gamma: number,
  reference: number,
): number {
  const exponent = (gamma - 1) / (2 * gamma);
  const X = (pressure / reference) ** exponent;
  const X_R = 0.5 * (X + 1) + ((gamma - 1) * along * X) / (4 * soundSpeed);
  // A stream faster than 2a/(gamma-1) leaves nothing to the wave against it.
  return X_R > 0 ? reference * X_R ** (1 / exponent) : 0;
}
