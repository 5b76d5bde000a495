/** What joins the ducts of a part. */

import { type Link, type MarchingDuct, stepBetween } from '../../../solver/index.ts';

/** Sharp steps between ducts that follow one another. */
export function stepsBetween(ducts: readonly MarchingDuct[]): Link[] {
  return ducts.slice(1).map((duct, k) => stepBetween(ducts[k]!.right, duct.left));
}
