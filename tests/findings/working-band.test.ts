/** Ring: identity. The speeds at which a pipe works, of rows of which every edge is known. */

import { describe, expect, test } from 'vitest';
import type { SweepRow } from '../../src/findings/row.ts';
import { bandDocument, landingSpans, workingBand } from '../../src/findings/working-band.ts';
import { syntheticSweep } from '../plots/synthetic-sweep.ts';

const base = syntheticSweep().rows[0] as SweepRow;
// TC 246, EC 277.
const row = (speed_rpm: number, middle: number | null, torque_nm: number, share = 0.9): SweepRow => ({
  ...base,
  speed_rpm,
  torque_nm,
  plugback_centroid_deg: middle,
  plugback_share_before_closing: share,
});

describe('where the wave lands and the torque is held', () => {
  const rows = [
    row(8000, 236, 17),
    row(8500, 256, 19),
    row(9000, 262, 20),
    row(9500, 270, 19),
    row(10_000, 274, 16),
    row(10_500, 280, 12),
  ];

  test('edges lie where the middle crosses a closing and torque its nine tenths', () => {
    expect(landingSpans(rows)).toEqual([{ from: 8250, to: 10_250 }]);
    // 18 Nm is half-way from 17 to 19, where the wave begins to land, and a third of the way from 19 to 16.
    const band = workingBand(rows);
    expect(band.works?.from).toBeCloseTo(8250, 9);
    expect(band.works?.to).toBeCloseTo(9500 + 500 / 3, 9);
    expect(band).toMatchObject({ openBelow: false, openAbove: false });
  });

  test('the share in time may end it before the middle does', () => {
    const partly = [row(9000, 262, 20, 0.7), row(9500, 264, 20, 0.3)];
    expect(landingSpans(partly)).toEqual([{ from: 9000, to: 9250 }]);
  });

  test('a band at an end of the computed speeds is open there', () => {
    expect(workingBand(rows.slice(1, 4))).toMatchObject({ openBelow: true, openAbove: true });
    // It lands on to the last speed, but its torque has fallen before.
    expect(workingBand(rows.slice(0, 5))).toMatchObject({ openBelow: false, openAbove: false });
  });

  test('torque that is best where the wave misses leaves nothing that works', () => {
    const early = [row(8000, 230, 30), row(8500, 240, 30), row(9000, 262, 20), row(9500, 300, 10)];
    const band = workingBand(early);
    expect(band.works).toBeNull();
    expect(band.lands).not.toBeNull();
    expect(bandDocument(band)).toMatchObject({ works_from_rpm: null, works_to_rpm: null });
    expect(bandDocument(workingBand([row(8000, null, 10)]))).toEqual({
      lands_from_rpm: null,
      lands_to_rpm: null,
      works_from_rpm: null,
      works_to_rpm: null,
      open_below: false,
      open_above: false,
    });
  });
});
