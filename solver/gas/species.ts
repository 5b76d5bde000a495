/**
 * Molar properties of one species from its NASA-9 polynomial:
 *   cp/R  = a1 T^-2 + a2 T^-1 + a3 + a4 T + a5 T^2 + a6 T^3 + a7 T^4
 *   H/RT  = -a1 T^-2 + a2 ln(T)/T + a3 + a4 T/2 + a5 T^2/3 + a6 T^3/4 + a7 T^4/5 + b1/T
 * R = 8.314510 J/(mol K), the value that report used. Source: NASA TP-2002-211556 (2002).
 */

import { logarithm } from '../arithmetic/functions.ts';
import type { Nasa9Range, Nasa9Species } from './nasa9.ts';

/** Molar gas constant of the NASA-9 fits [J/(mol K)]. */
export const MOLAR_GAS_CONSTANT = 8.31451;

function rangeAt(species: Nasa9Species, temperature: number): Nasa9Range {
  return temperature < 1000 ? species.ranges[0] : species.ranges[1];
}

/** Molar heat capacity at constant pressure at a temperature in K [J/(mol K)]. */
export function molarHeatCapacity(species: Nasa9Species, temperature: number): number {
  const [a1, a2, a3, a4, a5, a6, a7] = rangeAt(species, temperature).a;
  const T = temperature;
  return MOLAR_GAS_CONSTANT * (a1 / (T * T) + a2 / T + a3 + T * (a4 + T * (a5 + T * (a6 + T * a7))));
}

/** Molar enthalpy at a temperature in K, heat of formation included [J/mol]. */
export function molarEnthalpy(species: Nasa9Species, temperature: number): number {
  const range = rangeAt(species, temperature);
  const [a1, a2, a3, a4, a5, a6, a7] = range.a;
  const T = temperature;
  const overRT =
    -a1 / (T * T) +
    (a2 * logarithm(T)) / T +
    a3 +
    T * (a4 / 2 + T * (a5 / 3 + T * (a6 / 4 + (T * a7) / 5))) +
    range.b[0] / T;
  return MOLAR_GAS_CONSTANT * T * overRT;
}

/** Molar entropy at a temperature in K and the standard pressure [J/(mol K)]. */
export function molarEntropy(species: Nasa9Species, temperature: number): number {
  const range = rangeAt(species, temperature);
  const [a1, a2, a3, a4, a5, a6, a7] = range.a;
  const T = temperature;
  const overR =
    -a1 / (2 * T * T) -
    a2 / T +
    a3 * logarithm(T) +
    T * (a4 + T * (a5 / 2 + T * (a6 / 3 + (T * a7) / 4))) +
    range.b[1];
  return MOLAR_GAS_CONSTANT * overR;
}
