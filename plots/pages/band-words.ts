/** A band of speeds in words. Edges between computed speeds are told to what they are sure to; open ones are said to be. */

import { type Band, EDGE_STEP } from '../../src/findings/band.ts';
import { speed, THIN } from '../theme/numbers.ts';

const about = (value: number, isOpen: boolean): string =>
  speed(isOpen ? value : EDGE_STEP * Math.round(value / EDGE_STEP));

/** `from 9 250 to about 11 000 rpm or above`. */
export function bandEdges({ from, to, openBelow, openAbove }: Band): string {
  const below = openBelow ? ' or below' : '';
  const above = openAbove ? ' or above' : '';
  return `from ${about(from, openBelow)}${below} to about ${about(to, openAbove)}${THIN}rpm${above}`;
}
