/**
 * What follows from the node states: temperature, gamma, and the two coefficients c = a/(gamma k X) and w = a/X.
 */

import { square } from '../../arithmetic/functions.ts';
import { isPhysical } from '../../duct/physical.ts';
import { type GasModel, TABLE_LAST_ROW, TABLE_START, TABLE_STEP } from '../../gas/gas-model.ts';
import type { TextbookState } from './textbook-state.ts';

/** Refreshes a duct's nodes; returns the largest |u| + a [m/s], or NaN where a state is not physical. */
export function refresh(duct: TextbookState): number {
  return duct.gas.perfect ? refreshPerfect(duct) : refreshBlend(duct);
}

/** Whether the state of a node is physical: as for a cell, with X and the fastest speed for density and pressure. */
export function isPhysicalNode(duct: TextbookState, j: number): boolean {
  const { gas, T, w } = duct;
  const { X, u } = duct.now;
  return isPhysical(X[j], Math.abs(u[j]) + w[j] * X[j], T[j], gas.coldest, gas.hottest);
}

function refreshPerfect(duct: TextbookState): number {
  const { c, w, T, gamma, cells } = duct;
  const { X, u, A } = duct.now;
  const { coldest, hottest } = duct.gas;
  const R = duct.gas.gasConstantFresh;
  const g = 1 + R / duct.gas.perfectCv;
  const root = Math.sqrt(g);
  const share = 1 / (g * duct.k);
  let fastest = 0;
  let lowest = 1;
  for (let j = 0; j <= cells; j++) {
    const over = root * A[j];
    const x = X[j];
    w[j] = over;
    c[j] = over * share;
    T[j] = (x * x * A[j] * A[j]) / R;
    gamma[j] = g;
    const speed = Math.abs(u[j]) + over * x;
    if (speed > fastest) fastest = speed;
    if (!isPhysical(x, speed, T[j], coldest, hottest)) lowest = -1;
  }
  return lowest > 0 ? fastest : Number.NaN;
}

function refreshBlend(duct: TextbookState): number {
  const { c, w, T, gamma, cells, k, gas } = duct;
  const { X, u, A, y } = duct.now;
  const Rf = gas.gasConstantFresh;
  const dR = gas.gasConstantBurnt - Rf;
  for (let j = 0; j <= cells; j++) {
    const root = X[j] * A[j];
    T[j] = (root * root) / (Rf + dR * y[j]);
  }
  blendGamma(gas, T, y, gamma, 0, cells + 1);
  let fastest = 0;
  let lowest = 1;
  for (let j = 0; j <= cells; j++) {
    const over = Math.sqrt(gamma[j]) * A[j];
    w[j] = over;
    c[j] = over / (gamma[j] * k);
    const speed = Math.abs(u[j]) + over * X[j];
    if (speed > fastest) fastest = speed;
    if (!isPhysical(X[j], speed, T[j], gas.coldest, gas.hottest)) lowest = -1;
  }
  return lowest > 0 ? fastest : Number.NaN;
}

/** Gamma of a blend for elements from .. to-1 of temperature and burnt fraction, read from its table in place. */
export function blendGamma(
  gas: GasModel,
  temperature: Float64Array,
  burnt: Float64Array,
  gamma: Float64Array,
  from: number,
  to: number,
): void {
  const { table, gasConstantFresh: Rf, gasConstantBurnt } = gas;
  const dR = gasConstantBurnt - Rf;
  for (let j = from; j < to; j++) {
    const position = (temperature[j] - TABLE_START) / TABLE_STEP;
    const row = position <= 0 ? 0 : position >= TABLE_LAST_ROW ? TABLE_LAST_ROW : position | 0;
    const dT = temperature[j] - (TABLE_START + row * TABLE_STEP);
    const at = 6 * row;
    const fresh = table[at + 1] + dT * table[at + 2];
    const cv = fresh + burnt[j] * (table[at + 4] + dT * table[at + 5] - fresh);
    gamma[j] = 1 + (Rf + dR * burnt[j]) / cv;
  }
}

/** Refreshes one node alone. */
export function refreshNode(duct: TextbookState, j: number): void {
  const { X, A, y } = duct.now;
  const { gas } = duct;
  const R = gas.gasConstant(y[j]);
  const temperature = square(X[j] * A[j]) / R;
  const g = 1 + R / gas.heatCapacity(temperature, y[j]);
  duct.T[j] = temperature;
  duct.gamma[j] = g;
  duct.w[j] = Math.sqrt(g) * A[j];
  duct.c[j] = duct.w[j] / (g * duct.k);
}
