/**
 * The gas of a network: two thermally perfect gases blended by the burnt mass fraction Y, or one perfect gas.
 *   R(Y)   = (1-Y) R_fresh + Y R_burnt
 *   e(T,Y) = (1-Y) e_fresh(T) + Y e_burnt(T),  de = cv dT,  cv = cp - R,  gamma = 1 + R/cv,  a^2 = gamma R T
 * Energies are sensible, with the enthalpy zero at 298.15 K, so that heat released at that temperature adds to them
 * unchanged. cv is tabulated every `STEP` kelvin and taken as linear between; e is its exact integral, so that e and
 * cv of the model agree to round-off.
 *
 * One row of the table: [e_fresh, cv_fresh, slope_fresh, e_burnt, cv_burnt, slope_burnt].
 */

import { burntMoles, dryAir, freshCharge, type ThermalGas, thermalGas } from './mixture.ts';

const STANDARD_TEMPERATURE = 298.15;
const COLDEST = 100;
const HOTTEST = 4500;
const STEP = 5;
const ROWS = (HOTTEST - COLDEST) / STEP;
/**
 * Newton's last step for a temperature, as a share of it: it squares what it misses by, and cv changes so little with temperature
 * that a step of this size leaves 2e-15 of it at most (derived here, from the tables of a charge).
 */
export const NEAR_ENOUGH = 1e-7;
/** Below this the polynomials are not fitted: cp keeps the value it has here. */
const FIT_FROM = 200;

/** Slots of a gas point: the state of some gas and what follows from it [K, -, J/(kg K), J/(kg K), J/kg, J/kg]. */
export const GAS = {
  temperature: 0,
  burnt: 1,
  gasConstant: 2,
  heatCapacity: 3,
  energy: 4,
  enthalpy: 5,
} as const;

/** How gas is handed over inside a step: an array, which allocates nothing. */
export type GasPoint = Float64Array;

export function newGasPoint(): GasPoint {
  return new Float64Array(6);
}

export class GasModel {
  /** A perfect gas has constant heat capacities and needs no table. */
  readonly perfect: boolean;
  readonly gasConstantFresh: number;
  readonly gasConstantBurnt: number;
  /** Heat capacity at constant volume of the perfect gas [J/(kg K)]. */
  readonly perfectCv: number;
  readonly table: Float64Array;
  /** The gas is known above the one and up to the other [K]. */
  readonly coldest: number;
  readonly hottest: number;

  private constructor(perfect: boolean, fresh: number, burnt: number, cv: number, table: Float64Array) {
    this.perfect = perfect;
    this.gasConstantFresh = fresh;
    this.gasConstantBurnt = burnt;
    this.perfectCv = cv;
    this.table = table;
    this.coldest = perfect ? 0 : COLDEST;
    this.hottest = perfect ? Number.POSITIVE_INFINITY : HOTTEST;
  }

  /** A gas of constant gamma [-] and gas constant [J/(kg K)]. */
  static perfectGas(gamma: number, gasConstant: number): GasModel {
    if (!(gamma > 1) || !(gasConstant > 0)) throw new RangeError('a perfect gas needs gamma > 1 and R > 0');
    const cv = gasConstant / (gamma - 1);
    return new GasModel(true, gasConstant, gasConstant, cv, new Float64Array(6));
  }

  static blend(fresh: ThermalGas, burnt: ThermalGas): GasModel {
    const table = new Float64Array(6 * (ROWS + 1));
    fillColumns(table, 0, fresh);
    fillColumns(table, 3, burnt);
    return new GasModel(false, fresh.gasConstant, burnt.gasConstant, 0, table);
  }

  static air(): GasModel {
    return GasModel.blend(dryAir(), dryAir());
  }

  /** Fresh charge and burnt gas of a fuel CH_y at an equivalence ratio. */
  static charge(hydrogenCarbonRatio: number, equivalenceRatio: number): GasModel {
    if (last?.hydrogenCarbonRatio !== hydrogenCarbonRatio || last.equivalenceRatio !== equivalenceRatio) {
      const gas = GasModel.blend(
        freshCharge(hydrogenCarbonRatio, equivalenceRatio),
        thermalGas(burntMoles(hydrogenCarbonRatio, equivalenceRatio)),
      );
      last = { hydrogenCarbonRatio, equivalenceRatio, gas };
    }
    const { gasConstantFresh, gasConstantBurnt, table } = last.gas;
    return new GasModel(false, gasConstantFresh, gasConstantBurnt, 0, table);
  }

  /** Gas constant [J/(kg K)]. */
  gasConstant(burnt: number): number {
    return this.gasConstantFresh + (this.gasConstantBurnt - this.gasConstantFresh) * burnt;
  }

  /** Heat capacity at constant volume [J/(kg K)]. */
  heatCapacity(temperature: number, burnt: number): number {
    if (this.perfect) return this.perfectCv;
    const row = rowAt(temperature);
    const dT = temperature - (COLDEST + row * STEP);
    const t = this.table;
    const k = 6 * row;
    const fresh = t[k + 1] + dT * t[k + 2];
    return fresh + burnt * (t[k + 4] + dT * t[k + 5] - fresh);
  }

  /** Ratio of specific heats [-]. */
  gamma(temperature: number, burnt: number): number {
    return 1 + this.gasConstant(burnt) / this.heatCapacity(temperature, burnt);
  }

  /** Sensible internal energy [J/kg]. */
  energy(temperature: number, burnt: number): number {
    if (this.perfect) return this.perfectCv * temperature;
    const row = rowAt(temperature);
    const dT = temperature - (COLDEST + row * STEP);
    const t = this.table;
    const k = 6 * row;
    const fresh = t[k] + dT * (t[k + 1] + 0.5 * dT * t[k + 2]);
    const other = t[k + 3] + dT * (t[k + 4] + 0.5 * dT * t[k + 5]);
    return fresh + burnt * (other - fresh);
  }

  /** Sensible enthalpy [J/kg]. */
  enthalpy(temperature: number, burnt: number): number {
    return this.energy(temperature, burnt) + this.gasConstant(burnt) * temperature;
  }

  /** Temperature at an internal energy [K]; NaN if the energy lies outside the table. */
  temperature(energy: number, burnt: number, guess: number): number {
    single[GAS.energy] = energy;
    single[GAS.burnt] = burnt;
    single[GAS.temperature] = guess;
    this.solvePoint(single);
    return single[GAS.temperature];
  }

  /** Fills a point from its temperature and burnt fraction. */
  fillPoint(point: GasPoint): void {
    point[GAS.gasConstant] = this.gasConstant(point[GAS.burnt]);
    if (this.perfect) this.fillPerfect(point);
    else this.fillBlend(point);
    point[GAS.enthalpy] = point[GAS.energy] + point[GAS.gasConstant] * point[GAS.temperature];
  }

  private fillPerfect(point: GasPoint): void {
    point[GAS.heatCapacity] = this.perfectCv;
    point[GAS.energy] = this.perfectCv * point[GAS.temperature];
  }

  private fillBlend(point: GasPoint): void {
    const temperature = point[GAS.temperature];
    const share = point[GAS.burnt];
    const row = rowAt(temperature);
    const dT = temperature - (COLDEST + row * STEP);
    const t = this.table;
    const k = 6 * row;
    const freshCv = t[k + 1] + dT * t[k + 2];
    const fresh = t[k] + dT * (t[k + 1] + 0.5 * dT * t[k + 2]);
    const burnt = t[k + 3] + dT * (t[k + 4] + 0.5 * dT * t[k + 5]);
    point[GAS.heatCapacity] = freshCv + share * (t[k + 4] + dT * t[k + 5] - freshCv);
    point[GAS.energy] = fresh + share * (burnt - fresh);
  }

  /** Fills a point from its energy and burnt fraction; its temperature is the guess, and NaN after an energy beyond the table. */
  solvePoint(point: GasPoint): void {
    if (this.perfect) point[GAS.temperature] = point[GAS.energy] / this.perfectCv;
    else this.solveBlend(point);
    this.fillPoint(point);
  }

  /** Newton's method for the temperature; leaves the rest of the point as of its last guess. */
  private solveBlend(point: GasPoint): void {
    const wanted = point[GAS.energy];
    for (let i = 0; i < 20; i++) {
      this.fillBlend(point);
      const dT = (wanted - point[GAS.energy]) / point[GAS.heatCapacity];
      const T = point[GAS.temperature] + dT;
      point[GAS.temperature] = T;
      if (Math.abs(dT) <= NEAR_ENOUGH * T) return;
      if (!(T > COLDEST)) point[GAS.temperature] = COLDEST + 1e-6;
      else if (T > HOTTEST) point[GAS.temperature] = HOTTEST;
    }
    this.fillBlend(point);
    const miss = Math.abs(wanted - point[GAS.energy]) / point[GAS.heatCapacity];
    if (!(miss < 1e-9 * point[GAS.temperature])) point[GAS.temperature] = Number.NaN;
  }
}

/**
 * The charge last asked for: engines of one fuel share its table, which costs as much as half of all else that is built of an engine.
 * Each has a gas of its own all the same, for ducts of one gas share a memory that is given up with it.
 */
let last: {
  readonly hydrogenCarbonRatio: number;
  readonly equivalenceRatio: number;
  readonly gas: GasModel;
} | null = null;

const single = newGasPoint();

/** Row of the table, a true integer: an index that the compiler knows as a double would be boxed. */
function rowAt(temperature: number): number {
  const place = (temperature - COLDEST) / STEP;
  return place > 0 ? (place < ROWS ? place | 0 : ROWS - 1) : 0;
}

/** First row's temperature and the rows per kelvin, for code that reads the table in place. */
export const TABLE_START = COLDEST;
export const TABLE_STEP = STEP;
export const TABLE_LAST_ROW = ROWS - 1;

function fillColumns(table: Float64Array, column: number, gas: ThermalGas): void {
  const cvAt = (row: number): number =>
    gas.heatCapacity(Math.max(COLDEST + row * STEP, FIT_FROM)) - gas.gasConstant;
  let e = 0;
  for (let row = 0; row <= ROWS; row++) {
    const cv = cvAt(row);
    const slope = row < ROWS ? (cvAt(row + 1) - cv) / STEP : 0;
    table[6 * row + column] = e;
    table[6 * row + column + 1] = cv;
    table[6 * row + column + 2] = slope;
    e += STEP * (cv + 0.5 * STEP * slope);
  }
  // Shift so that h(298.15 K) = e + R T = 0.
  const row = Math.floor((STANDARD_TEMPERATURE - COLDEST) / STEP);
  const dT = STANDARD_TEMPERATURE - (COLDEST + row * STEP);
  const k = 6 * row + column;
  const eStandard = table[k] + dT * (table[k + 1] + 0.5 * dT * table[k + 2]);
  const shift = -gas.gasConstant * STANDARD_TEMPERATURE - eStandard;
  for (let r = 0; r <= ROWS; r++) table[6 * r + column] += shift;
}
