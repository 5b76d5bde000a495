/**
 * The standard atmosphere up to 11 km and the correction of measured power to standard air.
 *
 *   T = 288.15 - 0.0065 z,  p = 101325 (T/288.15)^5.25588,  R = 287.05287
 *   SAE J1349:     cf = 1.180 (990/P_d) sqrt( (t + 273)/298 ) - 0.18,  P_d dry pressure [mbar], t [deg C]
 *   ISO 1585 SI:   alpha = (99/p_s)^1.2 (T/298)^0.6,  p_s dry pressure [kPa], T [K], meant for 0.93 to 1.07
 *
 * Source: ISO 2533; SAE J1349; ISO 1585; exponents from memory.
 */

/** Temperature [K], pressure [Pa], density [kg/m3], sound speed [m/s]. */
export interface Air {
  readonly temperature: number;
  readonly pressure: number;
  readonly density: number;
  readonly soundSpeed: number;
}

/** Standard air at the geopotential `height` [m], up to 11 km. */
export function standardAtmosphere(height: number): Air {
  const gasConstant = 287.05287;
  const temperature = 288.15 - 0.0065 * height;
  const pressure = 101325 * (temperature / 288.15) ** 5.25588;
  return {
    temperature,
    pressure,
    density: pressure / (gasConstant * temperature),
    soundSpeed: Math.sqrt(1.4 * gasConstant * temperature),
  };
}

/** SAE J1349 factor for power measured at a dry pressure [Pa] and a temperature [K] [-]. */
export function saeCorrection(dryPressure: number, temperature: number): number {
  // The rule counts 273, not 273.15, from deg C.
  return 1.18 * (99000 / dryPressure) * Math.sqrt((temperature - 0.15) / 298) - 0.18;
}

/** ISO 1585 factor for spark ignition, power measured at a dry pressure [Pa] and a temperature [K] [-]. */
export function isoCorrection(dryPressure: number, temperature: number): number {
  return (99000 / dryPressure) ** 1.2 * (temperature / 298) ** 0.6;
}
