/** Coefficients of friction and wall heat in the cells, by the correlations of `duct/wall-losses.ts`. */

import {
  colburnCoefficient,
  conductivity,
  keptDarcyFactor,
  pulsatingCoefficient,
  viscosity,
} from '../../duct/wall-losses.ts';
import { type DuctState, GHOSTS } from './state.ts';

/** Refreshes the coefficients of friction and wall heat in every cell from its present state. */
export function refreshLosses(duct: DuctState): void {
  const { friction, heat } = duct.losses;
  if (!friction && heat === 'none' && !duct.shaped) return;
  const { r, u, T, y, gas, rough, frictionOverD, heatOverD, cells } = duct;
  const { shapeAhead, shapeBack, shapeNow, heatFactor } = duct;
  const { diameter } = duct.geometry;
  for (let i = 0; i < cells; i++) {
    const k = i + GHOSTS;
    const D = diameter[i];
    const flux = r[k] * Math.abs(u[k]);
    const mu = viscosity(T[k]);
    const reynolds = (flux * D) / mu;
    const darcy = keptDarcyFactor(reynolds, rough[i]);
    shapeNow[i] = u[k] < 0 ? shapeBack[i] : shapeAhead[i];
    frictionOverD[i] = (friction ? (0.5 * darcy) / D : 0) + shapeNow[i];
    if (heat === 'none') continue;
    const kGas = conductivity(T[k]);
    let h: number;
    if (heat === 'pulsating') h = pulsatingCoefficient(reynolds, D, kGas);
    else {
      const cp = gas.heatCapacity(T[k], y[k]) + gas.gasConstant(y[k]);
      h = colburnCoefficient(0.25 * darcy, flux, cp, (mu * cp) / kGas);
    }
    heatOverD[i] = (4 * heatFactor[i] * h) / D;
  }
}
