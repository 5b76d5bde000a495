/** Ring: identity. Percentiles over members of which every row is known, what is left out, and who beats whom. */

import { describe, expect, test } from 'vitest';
import {
  columnBand,
  landingChances,
  type MemberSweep,
  memberBands,
} from '../../src/findings/member-bands.ts';
import { draftChances } from '../../src/findings/member-chances.ts';
import { halfWidth, percentile, percentilesOf } from '../../src/findings/percentile.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { syntheticSweep } from '../plots/synthetic-sweep.ts';

const base = syntheticSweep().rows[0] as SweepRow;
const SPEEDS = [9000, 9500, 10_000];
// TC 246, EC 277: the wave lands at 9000 and 9500.
const row = (speed_rpm: number, torque_nm: number, more: Partial<SweepRow> = {}): SweepRow => ({
  ...base,
  speed_rpm,
  settled: true,
  torque_nm,
  power_kw: (torque_nm * speed_rpm * 2 * Math.PI) / 60e3,
  plugback_centroid_deg: 250 + (speed_rpm - 9000) / 20,
  plugback_share_before_closing: 0.9,
  ...more,
});
const member = (k: number, rows: readonly SweepRow[], more: Partial<MemberSweep> = {}): MemberSweep => ({
  member: k,
  rows,
  failures: [],
  refused: '',
  ...more,
});
/** Torque 10 + k at all speeds. */
const plain = (k: number, by = 0): MemberSweep =>
  member(
    k,
    SPEEDS.map((at) => row(at, 10 + k + by)),
  );

describe('percentiles', () => {
  test('lie straight between the ordered values', () => {
    expect(percentile([1, 2, 3, 4, 5], 0.25)).toBe(2);
    expect(percentile([0, 10], 0.95)).toBeCloseTo(9.5, 12);
    expect(percentile([], 0.5)).toBeNull();
    expect(percentilesOf([4, null, 2, 3, 1, null])).toMatchObject({ p50: 2.5, count: 4 });
    expect(halfWidth(percentilesOf([null]))).toBeNull();
  });
});

describe('members', () => {
  test('spread as they are, column by column and speed by speed', () => {
    const bands = memberBands(
      Array.from({ length: 21 }, (_, k) => plain(k)),
      SPEEDS,
    );
    expect(columnBand(bands, 'torque_nm')).toEqual(
      SPEEDS.map((speed_rpm) => ({
        speed_rpm,
        column: 'torque_nm',
        p05: 11,
        p25: 15,
        p50: 20,
        p75: 25,
        p95: 29,
        count: 21,
      })),
    );
    expect(bands.troubles).toMatchObject({ lost: 0, incomplete: 0, failedSpeeds: 0, unsettledSpeeds: 0 });
    const figure = (name: string) => bands.figures.find((one) => one.name === name);
    expect(figure('best_torque_nm')).toMatchObject({ p50: 20, open: 0 });
    // The wave lands from the first computed speed on: below that may be more.
    expect(figure('lands_from_rpm')).toMatchObject({ p50: 9000, open: 21 });
  });

  test('what failed, did not settle or has no reading is left out and counted', () => {
    const members = [
      plain(0),
      member(1, [row(9000, 11), row(9500, 99, { settled: false }), row(10_000, 11)]),
      member(2, [row(9000, 12), row(9500, 12)], { failures: [{ speedRpm: 10_000, reason: 'no' }] }),
      member(3, [], { refused: 'it cannot be' }),
      member(
        4,
        SPEEDS.map((at) => row(at, 14, { plugback_centroid_deg: null })),
      ),
    ];
    const bands = memberBands(members, SPEEDS);
    expect(columnBand(bands, 'torque_nm').map(({ count, p50 }) => [count, p50])).toEqual([
      [4, 11.5],
      [3, 12],
      [3, 11],
    ]);
    expect(columnBand(bands, 'plugback_centroid_deg').map(({ count }) => count)).toEqual([3, 2, 2]);
    expect(bands.troubles).toEqual({
      lost: 1,
      incomplete: 3,
      failedSpeeds: 1,
      unsettledSpeeds: 1,
      reasons: ['member 3 at 10000 rpm: no', 'member 4 cannot be: it cannot be'],
    });
    expect(landingChances(members, SPEEDS)[0]).toEqual({ speed_rpm: 9000, lands: { in: 3, of: 4 } });
  });
});

describe('one draft against another', () => {
  const band = { from: 9000, to: 10_000 };

  test('member by member: always ahead by a little, though both spread by more', () => {
    const against = { name: 'A', members: Array.from({ length: 10 }, (_, k) => plain(k)) };
    const draft = {
      name: 'B',
      members: Array.from({ length: 10 }, (_, k) => plain(k, k === 0 ? -0.1 : 0.1)),
    };
    const { at_target, over_band, best_power } = draftChances(draft, against, { target: 9500, band });
    expect(at_target).toMatchObject({ speed_rpm: 9500, better: { in: 9, of: 10 } });
    expect(over_band?.better).toEqual({ in: 9, of: 10 });
    expect(over_band?.by.p50).toBeCloseTo(0.1, 9);
    expect(best_power.better).toEqual({ in: 9, of: 10 });
  });

  test('only in members that both have', () => {
    const found = draftChances(
      { name: 'B', members: [plain(1, 1), plain(0, 1), member(2, [])] },
      { name: 'A', members: [plain(0), member(1, [row(9000, 3)]), plain(2)] },
      { target: 9500, band: null },
    );
    expect(found.at_target?.better).toEqual({ in: 1, of: 1 });
    // By their numbers, whatever their order.
    expect(found.at_target?.by.p50).toBeCloseTo(1, 12);
    expect(found.over_band).toBeNull();
    expect(found.best_torque.better).toEqual({ in: 2, of: 2 });
  });
});
