/**
 * What counts as a physical state of a cell: positive density and pressure, and a temperature that the gas is known at. One
 * test for the decoding that rejects a step, for the caution with which it is taken again, and for the message.
 */

import { type DuctState, GHOSTS } from '../duct/state.ts';

/** Whether the decoded state at an index, ghosts counted, is physical. */
export function isPhysical(duct: DuctState, k: number): boolean {
  const { gas } = duct;
  return duct.r[k] > 0 && duct.p[k] > 0 && duct.T[k] > gas.coldest && duct.T[k] <= gas.hottest;
}

/** Index of the first cell whose state is not, or -1. */
export function unphysicalCell(duct: DuctState): number {
  for (let i = 0; i < duct.cells; i++) if (!isPhysical(duct, i + GHOSTS)) return i;
  return -1;
}
