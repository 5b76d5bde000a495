/** Shades under a curve: where nine in ten of the members lie, and the middle half of them, with their median as a fine line. */

import type { ColumnBand } from '../../src/findings/member-bands.ts';
import { curve, shadeBetween } from '../marks/curve.ts';
import type { Bag } from '../theme/axes.ts';

/** Opacity of the outer and of the inner shade, as two hexadecimal digits. */
const OUTER = '22';
const INNER = '2e';

/** @param more of each trace: its axis */
export function memberShades(bands: readonly ColumnBand[], colour: string, more: Bag = {}): Bag[] {
  if (bands.length === 0) return [];
  const speeds = bands.map(({ speed_rpm }) => speed_rpm);
  const plain = { hoverinfo: 'skip', showlegend: false, connectgaps: false, ...more };
  const at = (key: 'p05' | 'p25' | 'p75' | 'p95') => bands.map((band) => band[key]);
  return [
    ...shadeBetween(speeds, [at('p05'), at('p95')], `${colour}${OUTER}`, {
      ...plain,
      name: 'nine in ten members',
    }),
    ...shadeBetween(speeds, [at('p25'), at('p75')], `${colour}${INNER}`, {
      ...plain,
      name: 'half of the members',
    }),
    curve(
      speeds,
      bands.map(({ p50 }) => p50),
      { color: colour, width: 0.8, dash: 'dot' },
      { ...plain, name: 'median of the members' },
    ),
  ];
}

/** What the shades reach, so that an axis holds them. */
export const reachOf = (bands: readonly ColumnBand[]): readonly (number | null)[] =>
  bands.flatMap(({ p05, p95 }) => [p05, p95]);
