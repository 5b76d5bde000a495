/**
 * Factors by which a dynamometer's readings are multiplied so that engines measured in different air can be compared, for
 * engines with spark ignition that draw their own air. Readings are multiplied: corrected = factor · measured.
 *
 *   ISO 1585:   a = (99 kPa / p_dry)^1.2 · (T / 298 K)^0.6
 *   SAE J1349:  a = 1.18 · (990 mbar / p_dry) · sqrt(T / 298 K) − 0.18
 *
 * p_dry is the pressure of the air without its water vapour, T its temperature. The second takes a mechanical efficiency of
 * 0.85. Both from memory, as is the pressure of saturated vapour over water (Magnus's formula with the constants of
 * Sonntag 1990, as the World Meteorological Organization gives it):
 *
 *   p_sat = 611.2 Pa · exp(17.62 t / (243.12 + t)),   t in degrees Celsius.
 */

import type { Weather } from '../../model/measured.ts';

export type Correction = 'none' | 'ISO 1585' | 'SAE J1349';

/** Pressure of saturated water vapour [Pa] at a temperature [K]. */
export function saturation(temperature: number): number {
  const t = temperature - 273.15;
  return 611.2 * Math.exp((17.62 * t) / (243.12 + t));
}

/** Pressure of the air without its vapour [Pa]. */
export function dryPressure({ pressure, temperature, humidity }: Weather): number {
  return pressure - humidity * saturation(temperature);
}

/** What a reading in that air was multiplied by [-]. */
export function correctionFactor(to: Correction, weather: Weather): number {
  const dry = dryPressure(weather);
  const warm = weather.temperature / 298;
  if (to === 'ISO 1585') return (99e3 / dry) ** 1.2 * warm ** 0.6;
  if (to === 'SAE J1349') return 1.18 * (99e3 / dry) * Math.sqrt(warm) - 0.18;
  return 1;
}
