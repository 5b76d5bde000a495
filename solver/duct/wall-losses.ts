/**
 * Losses at the wall of a duct.
 *   friction  G = (4f/D) u|u|/2, Darcy factor 4f after Haaland:  1/sqrt(4f) = -1.8 log10[(eps/3.7D)^1.11 + 6.9/Re],
 *             laminar 64/Re below Re = 2300
 *   heat      q rho = 4 h (Tw - T)/D, with h from Colburn's analogy  h = f/2 rho |u| cp Pr^(-2/3)
 *             or from the fit to pulsating exhaust flow  Nu = 0.07 Re^0.75
 *   viscosity and conductivity of air after Sutherland (burnt gas is taken alike)
 * Sources: Haaland, J. Fluids Eng. 105 (1983) 89 (from memory); Colburn 1933 (from memory); Depcik & Assanis,
 * SAE 2002-01-0372; White, Viscous Fluid Flow (Sutherland constants, value from memory).
 */

import { decimalLogarithm, power } from '../arithmetic/functions.ts';

/** What is switched on of a duct's losses at its wall: friction, the law of wall heat, the wall's roughness [m], a factor on the heat (1) [-]. */
export interface WallLosses {
  readonly friction: boolean;
  readonly heat: 'none' | 'colburn' | 'pulsating';
  readonly roughness: number;
  readonly heatFactor?: number;
}

/** A smooth wall without friction or heat. */
export const NO_LOSSES: WallLosses = { friction: false, heat: 'none', roughness: 0 };

const LAMINAR_BELOW = 2300;

/** Dynamic viscosity of air [Pa s]. */
export function viscosity(temperature: number): number {
  const t = temperature / 273.15;
  return (1.716e-5 * t * Math.sqrt(t) * (273.15 + 110.4)) / (temperature + 110.4);
}

/** Thermal conductivity of air [W/(m K)]. */
export function conductivity(temperature: number): number {
  const t = temperature / 273.15;
  return (0.0241 * t * Math.sqrt(t) * (273.15 + 194)) / (temperature + 194);
}

/** Haaland's term of the wall, (eps/3.7D)^1.11, from the relative roughness eps/D [-]. It never changes for a cell. */
export function roughnessTerm(relativeRoughness: number): number {
  return power(relativeRoughness / 3.7, 1.11);
}

/** Darcy friction factor from the Reynolds number and the term of the wall's roughness [-]. */
export function darcyFactor(reynolds: number, rough: number): number {
  if (reynolds < LAMINAR_BELOW) return 64 / Math.max(reynolds, 1);
  const inverse = -1.8 * decimalLogarithm(rough + 6.9 / reynolds);
  return 1 / (inverse * inverse);
}

/**
 * Darcy factor fit to be kept for some steps [-]. A gas nearly at rest has a laminar factor of 64/Re, far above 1, which a
 * wave that arrives before the next refresh would multiply by the square of its own velocity. Below the laminar bound the
 * factor of that bound is kept instead: what it misses is the drag of streams of a few metres per second at most.
 */
export function keptDarcyFactor(reynolds: number, rough: number): number {
  return darcyFactor(Math.max(reynolds, LAMINAR_BELOW), rough);
}

/** Heat transfer coefficient of the pulsating-flow fit [W/(m2 K)]. */
export function pulsatingCoefficient(reynolds: number, diameter: number, k: number): number {
  const root = Math.sqrt(reynolds);
  return (0.07 * root * Math.sqrt(root) * k) / diameter;
}

/** Heat transfer coefficient of Colburn's analogy; f is the Fanning factor [W/(m2 K)]. */
export function colburnCoefficient(fanning: number, massFlux: number, cp: number, prandtl: number): number {
  return 0.5 * fanning * massFlux * cp * power(prandtl, -2 / 3);
}
