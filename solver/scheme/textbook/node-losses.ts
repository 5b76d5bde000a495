/**
 * Coefficients of friction and wall heat at the nodes of a duct of the textbook scheme, by the correlations of `duct/wall-losses.ts`; where
 * no correlation is switched on, the means of what was given for the cells.
 */

import {
  colburnCoefficient,
  conductivity,
  keptDarcyFactor,
  pulsatingCoefficient,
  viscosity,
} from '../../duct/wall-losses.ts';
import type { TextbookState } from './textbook-state.ts';

/** Refreshes the coefficients at the nodes. */
export function refreshNodeLosses(duct: TextbookState): void {
  const { friction, heat } = duct.losses;
  const { cells, nodeFriction, nodeHeat } = duct;
  toNodes(duct.wallTemperature, duct.nodeWall);
  if (!friction) toNodes(duct.frictionOverD, nodeFriction);
  if (heat === 'none') toNodes(duct.heatOverD, nodeHeat);
  if (friction || heat !== 'none') correlate(duct);
  const { u } = duct.now;
  for (let j = 0; j <= cells; j++) nodeFriction[j] += u[j] < 0 ? duct.shapeBack[j] : duct.shapeAhead[j];
  let sum = 0;
  for (let j = 0; j <= cells; j++) sum += nodeFriction[j] + nodeHeat[j];
  duct.lossy = friction || heat !== 'none' || sum > 0;
}

/** Fills values at the nodes as the means of those of the cells beside them. */
export function toNodes(cellValues: Float64Array, nodes: Float64Array): void {
  const n = cellValues.length;
  nodes[0] = cellValues[0];
  nodes[n] = cellValues[n - 1];
  for (let j = 1; j < n; j++) nodes[j] = 0.5 * (cellValues[j - 1] + cellValues[j]);
}

function correlate(duct: TextbookState): void {
  const { nodeFriction, nodeHeat, diameter, rough, T, gas, cells } = duct;
  const { friction, heat, heatFactor = 1 } = duct.losses;
  const { X, u, y } = duct.now;
  for (let j = 0; j <= cells; j++) {
    const D = diameter[j];
    const R = gas.gasConstant(y[j]);
    const flux = (duct.pressureOf(X[j]) / (R * T[j])) * Math.abs(u[j]);
    const mu = viscosity(T[j]);
    const reynolds = (flux * D) / mu;
    const darcy = keptDarcyFactor(reynolds, rough[j]);
    if (friction) nodeFriction[j] = (0.5 * darcy) / D;
    if (heat === 'none') continue;
    const k = conductivity(T[j]);
    let h: number;
    if (heat === 'pulsating') h = pulsatingCoefficient(reynolds, D, k);
    else {
      const cp = gas.heatCapacity(T[j], y[j]) + R;
      h = colburnCoefficient(0.25 * darcy, flux, cp, (mu * cp) / k);
    }
    nodeHeat[j] = (4 * heatFactor * h) / D;
  }
}
