// The two-lane kernel: what ../kernel.ts calls. Each function is given the address of a duct and leaves its results there.

import { reconstruct } from "./faces";
import { Duct, GHOSTS } from "./layout";
import { fallBack, meet } from "./meet";
import { trace } from "./trace";
import { update } from "./update";

export { decode } from "./decode";
export * from "./functions";
export { refreshLosses } from "./losses";

/** First byte of the memory that the kernel does not use itself. */
export function freeFrom(): usize {
  return __heap_base;
}

/** Traces the characteristics over the step. */
export function arrivals(d: Duct): void {
  reconstruct(d);
  trace(d);
  const n = d.cells;
  if (!(d.rRight[0] > 0 && d.pRight[0] > 0)) fallBack(d, 0, GHOSTS, false);
  if (!(d.rLeft[n] > 0 && d.pLeft[n] > 0)) fallBack(d, n, n + GHOSTS - 1, true);
}

/** Updates the duct over the step; the answers of the ends are in its end faces. */
export function advance(d: Duct): void {
  meet(d);
  update(d);
}
