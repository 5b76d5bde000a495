/** Jumps of the torque curve as a page shows them. Ring: identity. */

import { describe, expect, it } from 'vitest';
import { outputCurves } from '../../plots/figures/output-curves.ts';
import { holesText } from '../../plots/pages/hole-words.ts';
import { lookFor } from '../../plots/theme/look.ts';
import { holesOf } from '../../src/findings/answers/torque-holes.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { syntheticSweep } from './synthetic-sweep.ts';

const look = lookFor(700, false);

describe('a jump of torque at which the wave stands still', () => {
  const base = syntheticSweep().rows[0] as SweepRow;
  const row = (speed_rpm: number, torque_nm: number): SweepRow => ({
    ...base,
    settled: true,
    speed_rpm,
    torque_nm,
    plugback_centroid_deg: 252,
    delivery_ratio: torque_nm / 20,
  });
  const rows = [row(8300, 20), row(8350, 19.9), row(8400, 18), row(8450, 17.9)];

  it('is marked between its two speeds, and its reason told', () => {
    const dotted = (one: readonly SweepRow[]): unknown[] => {
      const { shapes } = outputCurves(one, look).layout as { shapes: { type: string; x0: number }[] };
      return shapes.filter(({ type }) => type === 'line').map(({ x0 }) => x0);
    };
    expect(dotted(rows)).toEqual([8375]);
    expect(dotted(rows.slice(0, 2))).toEqual([]);
    expect(holesText(holesOf(rows))).toMatch(
      /^At 8.400.rpm a jump, 10.% below 8.350.rpm, though the wave stands still: the crankcase sends up less, .* Believe/,
    );
  });
});
