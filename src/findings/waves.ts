/**
 * The two waves superposed at a place. With X = (p/p0)^((gamma-1)/2gamma) and a0 = a/X,
 *   X = X_R + X_L - 1,   u = 2 a0/(gamma-1) (X_R - X_L),
 * each wave has the pressure it would have alone, p_R = p0 X_R^(2gamma/(gamma-1)). Exact for isentropic gas.
 * Source: Blair, Design and Simulation of Two-Stroke Engines (1996), chapter 2 (from memory).
 */

/** Pressures of the wave running towards positive x and of the one running back [Pa], into `out`. */
export function splitWaves(
  pressure: number,
  velocity: number,
  soundSpeed: number,
  gamma: number,
  reference: number,
  out: Float64Array,
): void {
  const exponent = (gamma - 1) / (2 * gamma);
  const X = (pressure / reference) ** exponent;
  const swing = ((gamma - 1) * velocity * X) / (4 * soundSpeed);
  const forward = Math.max(0.5 * (1 + X) + swing, 1e-3);
  const backward = Math.max(0.5 * (1 + X) - swing, 1e-3);
  out[0] = reference * forward ** (1 / exponent);
  out[1] = reference * backward ** (1 / exponent);
}
