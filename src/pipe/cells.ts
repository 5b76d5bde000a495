/** How many cells a drawing is cut into, for a limit before the work begins. */

import { lengthOf } from './places.ts';

/** More cells than any question needs: a pipe of 1.5 m in cells of a tenth of a millimetre has 15 000. */
export const MOST_CELLS = 20_000;

/** Cells of about a length that sections take [-]. */
export function cellsOf(sections: readonly { readonly length: number }[], cell: number): number {
  return Math.ceil(lengthOf(sections) / cell);
}
