/**
 * What counts as a physical state of a cell: positive density and pressure, and a temperature that the gas is known at. One
 * test for the decoding that rejects a step, for the caution with which it is taken again, and for the message.
 */

import { type DuctState, GHOSTS } from './state.ts';

/**
 * Whether two quantities that must be positive are (density and pressure, or what a scheme has in their place), and a gas is known
 * at its temperature. Small, so that it is inlined where it is asked of every cell.
 */
export function isPhysical(one: number, other: number, T: number, coldest: number, hottest: number): boolean {
  return one > 0 && other > 0 && T > coldest && T <= hottest;
}

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
