/** Where over exhaust duration the echo is strongest at one speed, as found, and whether that is a peak. */

import type { DurationPoint } from '../row.ts';
import { type Extreme, extreme } from './duration-line.ts';
import { LEAST_GAIN } from './map-step.ts';

/** Duration near which common practice, no source, expects the strongest resonance, and how near is near [deg]. */
export const RESONANT_DEG = 190;
const NEAR_DEG = 3;

export interface EchoAnswer {
  readonly most: Extreme;
  readonly least: Extreme;
  /**
   * flat: as much at every duration; edge: most at the first or last duration; indistinct: an edge has as much;
   * resonant: a peak near the duration of common practice; elsewhere: a peak that is not.
   */
  readonly kind: 'flat' | 'edge' | 'indistinct' | 'resonant' | 'elsewhere';
}

/** Null: no gain can be read. */
export function echoAnswer(column: readonly DurationPoint[]): EchoAnswer | null {
  const gain = ({ row }: DurationPoint): number | null => row.echo_gain;
  const [most, least] = [extreme(column, gain), extreme(column, gain, -1)];
  if (most === null || least === null) return null;
  const edges = [column[0], column.at(-1)].flatMap((p) => (p === undefined ? [] : (gain(p) ?? [])));
  const overEdges = most.value - Math.max(...edges);
  return { most, least, kind: kindOf(most, least, overEdges) };
}

function kindOf(most: Extreme, least: Extreme, overEdges: number): EchoAnswer['kind'] {
  if (most.value - least.value < LEAST_GAIN) return 'flat';
  if (most.atEdge) return 'edge';
  if (overEdges < LEAST_GAIN) return 'indistinct';
  return Math.abs(most.durationDeg - RESONANT_DEG) <= NEAR_DEG ? 'resonant' : 'elsewhere';
}
