/**
 * Contraction of a stream that enters a narrower duct over a sharp edge: the area of its narrowest place over the duct's,
 *   C_c = 0.63 + 0.37 (F2/F1)^3.
 * Fit to the measurements of Weisbach for water, as texts on fluid mechanics give it (value from memory).
 */

import { power } from '../arithmetic/functions.ts';

/** Contraction coefficient from the narrower area over the wider [-]. */
export function venaContracta(areaRatio: number): number {
  return 0.63 + 0.37 * power(areaRatio, 3);
}
