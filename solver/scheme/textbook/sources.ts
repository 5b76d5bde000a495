/**
 * What the waves gather on their way to a node: the change of area, wall friction and wall heat.
 *   area      -a u F'/F dt, F'/F the mean over the way, exact for a straight taper from node to node: with diameters d
 *             falling linearly, F'/F = 2 d'/d at the middle of the way
 *   losses    [ (gamma-1)(q + uG)/a -+ G ] dt,  G = frictionOverD |u| u,  q = heatOverD (Tw - T)/rho
 */

import { power } from '../../arithmetic/functions.ts';
import { type Feet, REFERENCE_PRESSURE, type TextbookState } from './textbook-state.ts';

/** Fills `gain` of both families over dt [s] from the last estimate in `next`. */
export function sources(duct: TextbookState, dt: number): void {
  if (duct.tapered) {
    areaGain(duct, duct.plus, dt);
    areaGain(duct, duct.minus, dt);
  } else {
    duct.plus.gain.fill(0);
    duct.minus.gain.fill(0);
  }
  if (duct.lossy) {
    nextRates(duct);
    lossGain(duct, duct.plus, dt, 1);
    lossGain(duct, duct.minus, dt, -1);
  }
}

/** d ln F/dx half way between node j and a foot nu cells to its left [1/m]. */
function slopeOnTheWay(diameter: Float64Array, dx: number, j: number, nu: number): number {
  const rise = nu >= 0 ? diameter[j] - diameter[j - 1] : diameter[j + 1] - diameter[j];
  return (2 * rise) / (dx * (diameter[j] - 0.5 * nu * rise));
}

function areaGain(duct: TextbookState, feet: Feet, dt: number): void {
  const { diameter, dx, cells, path } = duct;
  const { X, u } = duct.next;
  const { nu, gain, u: footU, a: footA } = feet;
  const half = -0.5 * dt;
  for (let j = 1; j < cells; j++) {
    const flow = footA[j] * footU[j] + path.a[j] * X[j] * u[j];
    gain[j] = half * flow * slopeOnTheWay(diameter, dx, j, nu[j]);
  }
}

function lossGain(duct: TextbookState, feet: Feet, dt: number, sign: 1 | -1): void {
  const { drag, warm, dragNext, warmNext, gamma, cells, path } = duct;
  const { X } = duct.next;
  const { nu, gain, a: footA } = feet;
  const half = 0.5 * dt;
  for (let j = 1; j < cells; j++) {
    const v = nu[j];
    const i = v >= 0 ? j - 1 : j;
    const t = v >= 0 ? 1 - v : -v;
    const g1 = gamma[j] - 1;
    const footDrag = drag[i] + t * (drag[i + 1] - drag[i]);
    const footWarm = warm[i] + t * (warm[i + 1] - warm[i]);
    const heat = (g1 * footWarm) / footA[j] + (g1 * warmNext[j]) / (path.a[j] * X[j]);
    gain[j] += half * (heat - sign * (footDrag + dragNext[j]));
  }
}

/** Rates of the current nodes; also keeps up their density. */
export function rates(duct: TextbookState): void {
  const { nodeFriction, nodeHeat, nodeWall, density, drag, warm, T, gas, cells, k } = duct;
  const { X, u, y } = duct.now;
  for (let j = 0; j <= cells; j++) {
    const rho = (REFERENCE_PRESSURE * power(X[j], 1 / k)) / (gas.gasConstant(y[j]) * T[j]);
    const vel = u[j];
    const G = nodeFriction[j] * Math.abs(vel) * vel;
    density[j] = rho;
    drag[j] = G;
    warm[j] = (nodeHeat[j] * (nodeWall[j] - T[j])) / rho + vel * G;
  }
}

/** Rates at the end of the step from the estimate of X and u there; `heated` holds A of the gas that gets there. */
export function nextRates(duct: TextbookState): void {
  const { nodeFriction, nodeHeat, nodeWall, density, dragNext, warmNext, gas, cells, k, heated } = duct;
  const { X: before, A, y } = duct.now;
  const { X, u } = duct.next;
  for (let j = 1; j < cells; j++) {
    const root = X[j] * heated[j];
    const temperature = (root * root) / gas.gasConstant(y[j]);
    const cooling = A[j] / heated[j];
    // rho goes with p/(A X)^2.
    const rise = ((X[j] - before[j]) / before[j]) * (1 / k - 2);
    const rho = density[j] * (1 + rise) * cooling * cooling;
    const vel = u[j];
    const G = nodeFriction[j] * Math.abs(vel) * vel;
    dragNext[j] = G;
    warmNext[j] = (nodeHeat[j] * (nodeWall[j] - temperature)) / rho + vel * G;
  }
}
