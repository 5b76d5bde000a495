/**
 * What spoils the suction of a speed while the transfers are open: a compression that ends it or dents it, when it is back, and
 * what it is, by when the wave traced to it left the port. What left before this opening is an echo of the cycle before: of its
 * plug-back, or of what ran out after that.
 */

import { effectOn } from '../interruption.ts';
import type { SweepRow } from '../row.ts';

export interface Spoiling {
  readonly effect: 'ends' | 'dents';
  /** Where it is back, degrees after top dead centre, and by how much it rises [bar]. */
  readonly deg: number;
  readonly rise: number;
  readonly source: 'this cycle' | 'plug-back' | 'after plug-back' | 'last cycle' | 'unknown';
}

export function spoilingOf(row: SweepRow): Spoiling | null {
  const { transfer_compression_bar: rise, transfer_compression_deg: deg } = row;
  const { suction_depth_bar: depth, suction_length_deg: length, suction_end_deg: endDeg } = row;
  // Rows of files that an earlier version wrote have no such columns.
  if (rise == null || deg == null || depth == null || length == null || endDeg == null) return null;
  const effect = effectOn({ depth: 1e5 * depth, length, endDeg }, { rise: 1e5 * rise, deg });
  return effect === 'nothing' ? null : { effect, deg, rise, source: sourceOf(row) };
}

function sourceOf(row: SweepRow): Spoiling['source'] {
  const { transfer_compression_left_deg: left, plugback_onset_deg: onset, plugback_end_deg: end } = row;
  if (left == null) return 'unknown';
  if (left >= row.exhaust_opens_deg) return 'this cycle';
  if (onset === null || end === null || left < onset - 360) return 'last cycle';
  return left <= end - 360 ? 'plug-back' : 'after plug-back';
}
