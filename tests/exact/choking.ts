/**
 * Flow from a vessel at rest (p0, T0) through a loss-free throat, subsonic or choked.
 *
 *   critical ratio  p_star/p0 = (2/(g+1))^(g/(g-1))
 *   choked          m/A = p0 sqrt( g/(R T0) ) (2/(g+1))^((g+1)/(2(g-1)))
 *   subsonic        m/A = p0/sqrt(R T0) sqrt[ (2g/(g-1)) ( y^(2/g) - y^((g+1)/g) ) ],   y = p/p0
 *
 * Source: A. H. Shapiro, The Dynamics and Thermodynamics of Compressible Fluid Flow, vol. I, ch. 4; from memory.
 */
import type { StillGas } from '../../src/verify/exact/simple-wave.ts';

/** p_star/p0 [-]. */
export function criticalPressureRatio(gamma: number): number {
  return (2 / (gamma + 1)) ** (gamma / (gamma - 1));
}

/** T_star/T0 [-]. */
export function criticalTemperatureRatio(gamma: number): number {
  return 2 / (gamma + 1);
}

/** rho_star/rho0 [-]. */
export function criticalDensityRatio(gamma: number): number {
  return (2 / (gamma + 1)) ** (1 / (gamma - 1));
}

/** sqrt(g) (2/(g+1))^((g+1)/(2(g-1))): the choked mass flux over p0/sqrt(R T0) [-]. */
export function chokedFlowFunction(gamma: number): number {
  return Math.sqrt(gamma) * (2 / (gamma + 1)) ** ((gamma + 1) / (2 * (gamma - 1)));
}

/** Choked mass flux [kg/(m2 s)]. */
export function criticalMassFlux(vessel: StillGas): number {
  const { gamma, gasConstant, temperature, pressure } = vessel;
  return (pressure * chokedFlowFunction(gamma)) / Math.sqrt(gasConstant * temperature);
}

/** Mass flux to a throat pressure of `ratio` times the vessel's [kg/(m2 s)]; the choked one below the critical ratio. */
export function massFlux(vessel: StillGas, ratio: number): number {
  const { gamma, gasConstant, temperature, pressure } = vessel;
  if (ratio <= criticalPressureRatio(gamma)) return criticalMassFlux(vessel);
  const drop = ratio ** (2 / gamma) - ratio ** ((gamma + 1) / gamma);
  return (
    (pressure / Math.sqrt(gasConstant * temperature)) *
    Math.sqrt((2 * gamma * Math.max(drop, 0)) / (gamma - 1))
  );
}
