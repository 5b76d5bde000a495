/**
 * Viscosity and conductivity of air over temperature.
 *
 * Sutherland:  mu = 1.716e-5 (T/273.15)^1.5 (273.15 + 110.4)/(T + 110.4),  k = 0.0241 (T/273.15)^1.5 (273.15 + 194)/(T + 194)
 * Polynomials: mu = 7.457e-6 + 4.1547e-8 T - 7.4793e-12 T^2,  k = 6.1944e-3 + 7.3814e-5 T - 1.2491e-8 T^2
 *
 * Source: F. M. White, Viscous Fluid Flow, for Sutherland's law; Blair (1996) for the polynomials; values from memory.
 */

/** Viscosity by Sutherland's law [Pa s]. */
export function sutherlandViscosity(temperature: number): number {
  return (1.716e-5 * (temperature / 273.15) ** 1.5 * (273.15 + 110.4)) / (temperature + 110.4);
}

/** Conductivity by Sutherland's law [W/(m K)]. */
export function sutherlandConductivity(temperature: number): number {
  return (0.0241 * (temperature / 273.15) ** 1.5 * (273.15 + 194)) / (temperature + 194);
}

/** Viscosity by the polynomial [Pa s]. */
export function polynomialViscosity(temperature: number): number {
  return 7.457e-6 + 4.1547e-8 * temperature - 7.4793e-12 * temperature ** 2;
}

/** Conductivity by the polynomial [W/(m K)]. */
export function polynomialConductivity(temperature: number): number {
  return 6.1944e-3 + 7.3814e-5 * temperature - 1.2491e-8 * temperature ** 2;
}
