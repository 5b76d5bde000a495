/**
 * What follows from the node states: temperature, gamma, and the two coefficients c = a/(gamma k X) and w = a/X.
 */

import { TABLE_LAST_ROW, TABLE_START, TABLE_STEP } from '../gas/gas-model.ts';
import type { MeshState } from './mesh-state.ts';

/** Refreshes a duct's nodes; returns the largest |u| + a [m/s], or NaN where a state is not physical. */
export function refresh(duct: MeshState): number {
  return duct.gas.perfect ? refreshPerfect(duct) : refreshBlend(duct);
}

function refreshPerfect(duct: MeshState): number {
  const { c, w, T, gamma, cells } = duct;
  const { X, u, sigma } = duct.now;
  const R = duct.gas.gasConstantFresh;
  const g = 1 + R / duct.gas.perfectCv;
  const share = 1 / (g * duct.k);
  let fastest = 0;
  let lowest = 1;
  for (let j = 0; j <= cells; j++) {
    const over = Math.sqrt(g / sigma[j]);
    const x = X[j];
    w[j] = over;
    c[j] = over * share;
    T[j] = (x * x) / (R * sigma[j]);
    gamma[j] = g;
    const speed = Math.abs(u[j]) + over * x;
    if (speed > fastest) fastest = speed;
    if (!(x > 0 && speed > 0)) lowest = -1;
  }
  return lowest > 0 ? fastest : Number.NaN;
}

function refreshBlend(duct: MeshState): number {
  const { c, w, T, gamma, z, cells, k, gas } = duct;
  const { X, u, sigma, y } = duct.now;
  let fastest = 0;
  let lowest = 1;
  for (let j = 0; j <= cells; j++) {
    const x = X[j];
    const R = gas.gasConstant(y[j]);
    const temperature = (x * x) / (R * sigma[j]);
    const g = 1 + R / blendHeatCapacity(gas.table, temperature, y[j]);
    const over = Math.sqrt(g / sigma[j]);
    z[j] = sigma[j] * y[j];
    w[j] = over;
    c[j] = over / (g * k);
    T[j] = temperature;
    gamma[j] = g;
    const speed = Math.abs(u[j]) + over * x;
    if (speed > fastest) fastest = speed;
    if (!(x > 0 && temperature > TABLE_START && speed > 0)) lowest = -1;
  }
  return lowest > 0 ? fastest : Number.NaN;
}

/** Heat capacity at constant volume of a blend from its table [J/(kg K)]. */
export function blendHeatCapacity(table: Float64Array, temperature: number, burnt: number): number {
  const position = (temperature - TABLE_START) / TABLE_STEP;
  const row = position <= 0 ? 0 : position >= TABLE_LAST_ROW ? TABLE_LAST_ROW : position | 0;
  const dT = temperature - (TABLE_START + row * TABLE_STEP);
  const at = 6 * row;
  const fresh = table[at + 1] + dT * table[at + 2];
  return fresh + burnt * (table[at + 4] + dT * table[at + 5] - fresh);
}

/** Refreshes one node alone. */
export function refreshNode(duct: MeshState, j: number): void {
  const { X, sigma, y } = duct.now;
  const { gas } = duct;
  const R = gas.gasConstant(y[j]);
  const temperature = (X[j] * X[j]) / (R * sigma[j]);
  const g = 1 + R / gas.heatCapacity(temperature, y[j]);
  duct.T[j] = temperature;
  duct.gamma[j] = g;
  duct.z[j] = sigma[j] * y[j];
  duct.w[j] = Math.sqrt(g / sigma[j]);
  duct.c[j] = duct.w[j] / (g * duct.k);
}
