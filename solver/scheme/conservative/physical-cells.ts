/** The test of `duct/physical.ts` put to the cells: for the caution with which a step is taken again, and for the message. */

import { isPhysical } from '../../duct/physical.ts';
import { type DuctState, GHOSTS } from './state.ts';

/** Whether the state of cell i is, as decoded. */
export function isPhysicalCell(duct: DuctState, i: number): boolean {
  const { r, p, T, gas } = duct;
  const k = i + GHOSTS;
  return isPhysical(r[k], p[k], T[k], gas.coldest, gas.hottest);
}

/** Index of the first cell whose state is not, or -1. */
export function unphysicalCell(duct: DuctState): number {
  for (let i = 0; i < duct.cells; i++) if (!isPhysicalCell(duct, i)) return i;
  return -1;
}
