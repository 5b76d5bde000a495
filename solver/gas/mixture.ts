/**
 * The two gases of a two-stroke: fresh charge (air with fuel vapour) and the burnt gas of the same mixture.
 *
 * Burning one mole of CH_y at equivalence ratio phi in air (78.08 N2, 20.95 O2, 0.93 Ar, 0.04 CO2 by volume):
 * lean, the oxygen left over stays; rich, CO and H2 share the missing oxygen with the water-gas constant
 * K = [CO][H2O]/([CO2][H2]) = 3.5 (Heywood 1988, section 4.9, value from memory), composition frozen.
 *
 * The fuel's vapour: cp of gasoline vapour C8.26H15.5 after Heywood 1988, table 4.9 (value from memory); its molar
 * mass follows from the carbon number 8.26 and y. The charge is taken as fully evaporated.
 */

import { power } from '../arithmetic/functions.ts';
import { NASA9, type SpeciesName } from './nasa9.ts';
import { molarEnthalpy, molarHeatCapacity } from './species.ts';

/** Molar gas constant, CODATA 2018 [J/(mol K)]. Heat capacities are those of the fits' report, made with its own R. */
const R_CODATA = 8.314462618;

export type Moles = Readonly<Partial<Record<SpeciesName, number>>>;

const AIR: Moles = { N2: 0.7808, O2: 0.2095, Ar: 0.0093, CO2: 0.0004 };
const WATER_GAS_CONSTANT = 3.5;
const CARBON_MASS = 12.011;
const HYDROGEN_MASS = 1.00794;
const CARBON_NUMBER = 8.26;
const STANDARD_TEMPERATURE = 298.15;

/** A gas as a function of temperature: gas constant [J/(kg K)] and heat capacity at constant pressure [J/(kg K)]. */
export interface ThermalGas {
  readonly gasConstant: number;
  readonly heatCapacity: (temperature: number) => number;
}

function molesOf(mixture: Moles): [SpeciesName, number][] {
  return Object.entries(mixture) as [SpeciesName, number][];
}

/** Mass of a mixture given in moles [g]. */
export function mixtureMass(mixture: Moles): number {
  return molesOf(mixture).reduce((sum, [name, n]) => sum + n * NASA9[name].molarMass, 0);
}

/** A mixture of species, given in moles, as a gas by mass. */
export function thermalGas(mixture: Moles): ThermalGas {
  const parts = molesOf(mixture);
  const total = parts.reduce((sum, [, n]) => sum + n, 0);
  const mass = mixtureMass(mixture) / 1000;
  return {
    gasConstant: (R_CODATA * total) / mass,
    heatCapacity: (temperature) =>
      parts.reduce((sum, [name, n]) => sum + n * molarHeatCapacity(NASA9[name], temperature), 0) / mass,
  };
}

export function dryAir(): ThermalGas {
  return thermalGas(AIR);
}

/** Moles of air that a mole of CH_y gets at an equivalence ratio [mol]. */
function airMoles(y: number, phi: number): number {
  return (1 + y / 4) / phi / (AIR.O2 as number);
}

/** Air-fuel ratio by mass of CH_y at an equivalence ratio [-]. */
export function airFuelRatio(y: number, phi: number): number {
  return (airMoles(y, phi) * mixtureMass(AIR)) / (CARBON_MASS + y * HYDROGEN_MASS);
}

/** Moles in the burnt gas of one mole of CH_y at an equivalence ratio. */
export function burntMoles(y: number, phi: number): Moles {
  const air = airMoles(y, phi);
  const inert = { N2: air * (AIR.N2 as number), Ar: air * (AIR.Ar as number) };
  const airborneCo2 = air * (AIR.CO2 as number);
  if (phi <= 1) {
    return { ...inert, CO2: 1 + airborneCo2, H2O: y / 2, O2: (1 + y / 4) * (1 / phi - 1) };
  }
  // c and w are the moles of CO2 and H2O, the air's own CO2 included:
  // c + w = s (oxygen balance less carbon balance), (1 + air - c) w = K c (y/2 - w) (water-gas).
  const s = (2 * (1 + y / 4)) / phi - 1 + airborneCo2;
  const K = WATER_GAS_CONSTANT;
  const carbon = 1 + airborneCo2;
  const qa = 1 - K;
  const qb = -carbon - s - (K * y) / 2 + K * s;
  const root = Math.sqrt(qb * qb - 4 * qa * carbon * s);
  const candidates = [(-qb + root) / (2 * qa), (-qb - root) / (2 * qa)];
  const c = candidates.find((x) => x >= 0 && x <= carbon && s - x >= 0 && s - x <= y / 2);
  if (c === undefined)
    throw new RangeError(`equivalence ratio ${phi} is too rich to burn to CO2, CO, H2O and H2`);
  const w = s - c;
  return { ...inert, CO2: c, CO: carbon - c, H2O: w, H2: y / 2 - w };
}

/** Heat capacity of gasoline vapour [J/(kg K)]; Heywood 1988 table 4.9, value from memory. */
function fuelVapourHeatCapacity(temperature: number): number {
  const t = Math.min(temperature, 1500) / 1000;
  const calPerMolK = -24.078 + 256.63 * t - 201.68 * t * t + 64.75 * power(t, 3) + 0.5808 / (t * t);
  return (calPerMolK * 4.184 * 1000) / (8.26 * CARBON_MASS + 15.5 * HYDROGEN_MASS);
}

/** Fresh charge: air and fuel vapour at an equivalence ratio. */
export function freshCharge(y: number, phi: number): ThermalGas {
  const air = dryAir();
  const airShare = airFuelRatio(y, phi) / (1 + airFuelRatio(y, phi));
  const fuelMolarMass = (CARBON_NUMBER * (CARBON_MASS + y * HYDROGEN_MASS)) / 1000;
  return {
    gasConstant: airShare * air.gasConstant + ((1 - airShare) * R_CODATA) / fuelMolarMass,
    heatCapacity: (temperature) =>
      airShare * air.heatCapacity(temperature) + (1 - airShare) * fuelVapourHeatCapacity(temperature),
  };
}

/**
 * Heat that one kg of fresh charge sets free when it burns to the gas of `burntMoles` [J/kg]: the fuel's lower heating
 * value less that of the CO and H2 left in a rich mixture, at 298.15 K and constant pressure.
 */
export function reactionHeat(y: number, phi: number, lowerHeatingValue: number): number {
  const fuelMass = (CARBON_MASS + y * HYDROGEN_MASS) / 1000;
  const burnt = burntMoles(y, phi);
  const h = (name: SpeciesName): number => molarEnthalpy(NASA9[name], STANDARD_TEMPERATURE);
  const left =
    (burnt.CO ?? 0) * (h('CO') - h('CO2') + h('O2') / 2) +
    (burnt.H2 ?? 0) * (h('H2') - h('H2O') + h('O2') / 2);
  return (lowerHeatingValue * fuelMass - left) / (fuelMass * (1 + airFuelRatio(y, phi)));
}
