/**
 * Stage 2: interface values of the piecewise parabolas and the flattening at strong shocks.
 *   q(i+1/2) = 7/12 (q_i + q_{i+1}) - 1/12 (q_{i-1} + q_{i+2})
 * and where that lies beyond both cells, as near a crest, by the curvatures around (see limit.ts).
 * Source: Colella & Woodward, J. Comput. Phys. 54 (1984) 174, eqs. 1.6-1.9 (uniform mesh) and A.1, A.2 (flattening).
 */

import { limitFace } from './limit.ts';
import { type DuctState, GHOSTS } from './state.ts';

/** Fills the interface values of density, velocity, pressure and burnt fraction, and the flattening. */
export function reconstruct(duct: DuctState): void {
  interfaceValues(duct.r, duct.rFace, duct.cells);
  interfaceValues(duct.u, duct.uFace, duct.cells);
  interfaceValues(duct.p, duct.pFace, duct.cells);
  if (duct.mixed) interfaceShares(duct.y, duct.yFace, duct.cells);
  flattenShocks(duct.p, duct.u, duct.flatten, duct.cells);
  if (duct.calmed) flattenCalmed(duct);
}

/** Cells near one that failed are taken as uniform: first order there, for this one step. */
function flattenCalmed(duct: DuctState): void {
  const { flatten, calm } = duct;
  for (let k = 0; k < calm.length; k++) if (calm[k] > 0) flatten[k] = 1;
}

function interfaceValues(q: Float64Array, face: Float64Array, cells: number): void {
  let before = q[0];
  let left = q[1];
  let right = q[2];
  for (let j = 0; j <= cells; j++) {
    const after = q[j + 3];
    const value = (7 * (left + right) - (before + after)) / 12;
    face[j] = value;
    if ((value - left) * (right - value) < 0) limitFace(q, face, j);
    before = left;
    left = right;
    right = after;
  }
}

/** The same for a fraction, held between the two cells: it must not leave [0, 1]. */
function interfaceShares(q: Float64Array, face: Float64Array, cells: number): void {
  for (let j = 0; j <= cells; j++) {
    const left = q[j + 1];
    const right = q[j + 2];
    const value = (7 * (left + right) - (q[j] + q[j + 3])) / 12;
    face[j] = (value - left) * (right - value) < 0 ? 0.5 * (left + right) : value;
  }
}

function flattenShocks(p: Float64Array, u: Float64Array, flatten: Float64Array, cells: number): void {
  for (let k = GHOSTS; k < cells + GHOSTS; k++) {
    flatten[k] = 0;
    const back = p[k - 1];
    const front = p[k + 1];
    const jump = Math.abs(front - back);
    if (jump > 0.33 * (back < front ? back : front) && u[k - 1] > u[k + 1]) {
      const wide = Math.abs(p[k + 2] - p[k - 2]);
      const steepness = wide > 0 ? jump / wide : 1;
      const value = 10 * (steepness - 0.75);
      flatten[k] = value < 0 ? 0 : value > 1 ? 1 : value;
    }
  }
}
