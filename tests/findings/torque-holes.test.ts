/** Ring: identity. Holes of the torque curve and their reasons, from rows of which each number is known. */

import { describe, expect, test } from 'vitest';
import { spoilingOf } from '../../src/findings/answers/spoiling.ts';
import { holesOf } from '../../src/findings/answers/torque-holes.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { syntheticSweep } from '../plots/synthetic-sweep.ts';

const base: SweepRow = {
  ...(syntheticSweep().rows[0] as SweepRow),
  settled: true,
  delivery_ratio: 0.8,
  trapping_efficiency: 0.8,
  scavenging_efficiency: 0.8,
  port_mean_during_transfer_bar: 0.95,
  plugback_centroid_deg: 256,
  transfer_compression_bar: 0.02,
};
const curve = (torques: readonly number[], change: Partial<SweepRow> = {}, at = 2): readonly SweepRow[] =>
  torques.map((torque_nm, k) => ({
    ...base,
    ...(k === at ? change : {}),
    speed_rpm: 8000 + 250 * k,
    torque_nm,
  }));
const HOLE = [18, 19, 16, 20, 19];
const reason = (change: Partial<SweepRow>) => holesOf(curve(HOLE, change))[0]?.reason;

describe('a hole', () => {
  test('lies between two crests, and is held against the lesser', () => {
    const [hole, ...more] = holesOf(curve(HOLE));
    expect(more).toEqual([]);
    expect(hole).toMatchObject({ rpm: 8500, crestRpm: 8250 });
    expect(hole?.depth).toBeCloseTo(3 / 19, 12);
    // The bump beyond is the lesser here, and its top is not the first speed that rises.
    expect(holesOf(curve([18, 20, 16, 17, 17.5, 15]))[0]).toMatchObject({ rpm: 8500, crestRpm: 9000 });
  });

  test('is none on a slope, on a shoulder, or where it is as shallow as cycles vary', () => {
    expect(holesOf(curve([14, 16, 18, 20, 19, 17]))).toEqual([]);
    expect(holesOf(curve([18, 19, 19, 20, 18]))).toEqual([]);
    expect(holesOf(curve([18, 19.2, 19, 20, 18]))).toEqual([]);
    expect(holesOf([])).toEqual([]);
  });

  test('each of several is found', () => {
    expect(holesOf(curve([20, 17, 19, 16, 18, 16.5])).map(({ rpm }) => rpm)).toEqual([8250, 8750]);
  });
});

test('a step between neighbours is told from its lower side, a hole not twice', () => {
  const steps = (torques: readonly number[]) => holesOf(curve(torques)).filter(({ kind }) => kind === 'step');
  expect(steps([18, 19, 20, 14, 13.5, 13])).toMatchObject([{ rpm: 8750, crestRpm: 8500 }]);
  expect(steps([14, 14.2, 19, 20, 19])).toMatchObject([{ rpm: 8250, crestRpm: 8500 }]);
  expect(steps([18, 20, 16, 20, 19])).toEqual([]);
  expect(steps([18, 19, 20, 18.5, 17, 15.5])).toEqual([]);
});

test('a jump is a step between close speeds at which the wave stands still, and told once', () => {
  const close = (torques: readonly number[], middles: readonly number[], step = 50) =>
    holesOf(
      torques.map((torque_nm, k) => ({
        ...base,
        speed_rpm: 8000 + step * k,
        torque_nm,
        plugback_centroid_deg: middles[k] ?? null,
        delivery_ratio: k > 1 ? 0.7 : 0.8,
      })),
    );
  const falling = [20, 19.9, 18.5, 18.4];
  expect(close(falling, [250, 250.5, 253, 253.5])).toMatchObject([
    { kind: 'jump', rpm: 8100, crestRpm: 8050, reason: { kind: 'intake' } },
  ]);
  // Seven per cent between speeds further apart, or with a wave that moves, is a slope.
  expect(close(falling, [250, 250.5, 253, 253.5], 100)).toEqual([]);
  expect(close(falling, [250, 250.5, 256, 256.5])).toEqual([]);
  expect(close([20, 19.9, 16, 15.9], [250, 250, 251, 251]).map(({ kind }) => kind)).toEqual(['jump']);
});

describe('the reason of a hole', () => {
  const echo = {
    transfer_compression_bar: 0.6,
    transfer_compression_deg: 178,
    suction_depth_bar: 0.4,
    suction_length_deg: 40,
    suction_end_deg: 176,
    transfer_compression_left_deg: 262 - 360,
    plugback_onset_deg: 230,
    plugback_end_deg: 290,
    delivery_ratio: 0.6,
  };
  test('is what ends the suction there and not at the crest', () => {
    const spoiled = { kind: 'spoiled', by: { effect: 'ends', deg: 178, rise: 0.6, source: 'plug-back' } };
    expect(reason(echo)).toEqual(spoiled);
    // The same front at the crest explains nothing.
    const rows = curve(HOLE, echo).map((row, k) => ({
      ...row,
      ...(k === 2 ? {} : { ...echo, delivery_ratio: 0.8 }),
    }));
    expect(holesOf(rows)[0]?.reason.kind).toBe('intake');
  });

  test('is told against the greater crest where the lesser suffers alike', () => {
    const rows = curve(HOLE, echo).map((row, k) => (k === 1 ? { ...row, ...echo } : row));
    expect(holesOf(rows)[0]).toMatchObject({ crestRpm: 8750, reason: { kind: 'spoiled' } });
  });

  test('is told apart by when the wave left', () => {
    const source = (left: number | null) =>
      spoilingOf({ ...base, ...echo, transfer_compression_left_deg: left })?.source;
    expect([100, -98, -60, -200, null].map(source)).toEqual([
      'this cycle',
      'plug-back',
      'after plug-back',
      'last cycle',
      'unknown',
    ]);
  });

  test.each([
    [{ settled: false }, 'not settled'],
    [{ delivery_ratio: 0.7, port_mean_during_transfer_bar: 1.05 }, 'port'],
    [{ delivery_ratio: 0.7 }, 'intake'],
    [{ trapping_efficiency: 0.7, plugback_centroid_deg: 240 }, 'wave'],
    [{ trapping_efficiency: 0.7, plugback_centroid_deg: 257 }, 'trapping'],
    [{ scavenging_efficiency: 0.7 }, 'residual'],
    [{}, 'unknown'],
  ] as const)('%j is %s', (change, kind) => expect(reason(change)?.kind).toBe(kind));
});
