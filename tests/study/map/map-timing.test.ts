/**
 * Ring: identity. A longer exhaust duration moves the plug-back as the traced wave says it must. Closing moves later by
 * half the change and opening earlier by half, so a wave that took the same time out and back would gain one degree of
 * lead for each degree of duration; gas that gets hotter as the engine breathes better brings it back sooner still. The
 * path traced through the computed gas knows that and nothing of the plug-back's shape, which makes it the witness.
 */

import { beforeAll, describe, expect, test } from 'vitest';
import { crossings } from '../../../src/findings/answers/duration-line.ts';
import { mapAnswer } from '../../../src/findings/answers/map.ts';
import { middleLead } from '../../../src/findings/landing.ts';
import type { DurationPoint, SweepRow } from '../../../src/findings/row.ts';
import { withExhaustDuration } from '../../../src/study/map/exhaust-duration.ts';
import { runGroup } from '../../../src/study/work/run-sweep.ts';
import { type FullRow, fullRow } from '../../engine/demo.ts';
import { saltmarsh } from '../../timing/saltmarsh.ts';

interface FullPoint extends DurationPoint {
  readonly row: FullRow;
}

const speeds = [9000, 9500, 10_000];
const [shorter, longer] = [196, 202];
const points = new Map<number, readonly FullPoint[]>();

beforeAll(() => {
  const subject = { ...saltmarsh, run: { ...saltmarsh.run, cell: 12e-3, speeds } };
  for (const durationDeg of [shorter, longer]) {
    const { records } = runGroup({
      subject: withExhaustDuration(subject, durationDeg),
      speeds,
      brief: true,
    });
    points.set(
      durationDeg,
      records.map(({ row }) => ({ durationDeg, row: fullRow(row) })),
    );
  }
});

const at = (durationDeg: number): readonly FullPoint[] => points.get(durationDeg) ?? [];
/** Lead of the wave traced to the end of the baffle and back, where the last of it turns. */
const traced = (row: FullRow): number => row.exhaust_closes_deg - row.traced_return_baffle_end_deg;
const byTrace = (points: readonly FullPoint[]): readonly FullPoint[] =>
  points.map((p) => ({ ...p, row: { ...p.row, plugback_lead_deg: traced(p.row) } }));

describe('six degrees more of duration', () => {
  test('move opening and closing by three each', () => {
    const [a, b] = [at(shorter)[0]?.row, at(longer)[0]?.row];
    // No pin offset in this engine.
    expect((a?.exhaust_opens_deg ?? 0) - (b?.exhaust_opens_deg ?? 0)).toBeCloseTo(3, 9);
    expect((b?.exhaust_closes_deg ?? 0) - (a?.exhaust_closes_deg ?? 0)).toBeCloseTo(3, 9);
  });

  test.each([0, 1, 2])('gain the lead that the traced wave gains (speed %i)', (k) => {
    const [a, b] = [at(shorter)[k]?.row as FullRow, at(longer)[k]?.row as FullRow];
    const lead = b.plugback_lead_deg - a.plugback_lead_deg;
    const wanted = traced(b) - traced(a);
    expect(wanted).toBeGreaterThan(6 - 0.5);
    // Crest against one traced path on cells of 12 mm, of which a wave crosses one in 1.6 degrees; twice that.
    expect(Math.abs(lead - wanted)).toBeLessThan(3.2);
  });

  test('move the speed of coincidence up, as far as the traced wave says', () => {
    const meets = (of: readonly FullPoint[]): number =>
      crossings(
        of,
        (p) => p.row.speed_rpm,
        (row) => row.plugback_lead_deg,
      )[0] ?? Number.NaN;
    const shift = meets(at(longer)) - meets(at(shorter));
    const wanted = meets(byTrace(at(longer))) - meets(byTrace(at(shorter)));
    expect(wanted).toBeGreaterThan(100);
    // Straight lines between speeds 500 rpm apart, of curves that bend.
    expect(shift / wanted).toBeGreaterThan(0.8);
    expect(shift / wanted).toBeLessThan(1.2);
  });
});

describe('what a map says', () => {
  const row = (speed_rpm: number, lead: number | null, torque: number | null, gain: number): SweepRow =>
    ({
      speed_rpm,
      settled: true,
      transfers_close_deg: 268,
      exhaust_closes_deg: 278,
      plugback_centroid_deg: lead === null ? null : 278 - lead,
      plugback_share_before_closing: lead === null ? null : 0.5 + lead / 100,
      torque_nm: torque,
      echo_gain: gain,
      packed_mass_ratio: lead === null ? null : lead / 100,
      transfer_opening_cylinder_bar: torque === null ? null : torque / 10,
    }) as SweepRow;
  const point = (durationDeg: number, ...of: Parameters<typeof row>): DurationPoint => ({
    durationDeg,
    row: row(...of),
  });
  const grid = [
    point(190, 9000, 4, 18, 1.0),
    point(190, 10_000, -4, 15, 1.1),
    point(194, 9000, 8, 19, 1.2),
    point(194, 10_000, 0.5, 17, 1.3),
    point(198, 9000, 12, 17, 1.1),
    point(198, 10_000, 5, 18, 1.2),
  ];
  /** A roof a quarter of a millimetre higher for each degree. */
  const roofTravel = (durationDeg: number): number => 0.08 - 0.00025 * durationDeg;
  const answer = mapAnswer(grid, { targetSpeed: 9900, drawnDurationDeg: 195, roofTravel });

  test('at the target: durations', () => {
    expect(answer).toMatchObject({
      speedRpm: 10_000,
      isTarget: true,
      askedDeg: 195,
      drawnDeg: 194,
      torqueAsDrawn: 17,
    });
    expect(answer?.bestTorque).toMatchObject({ durationDeg: 198, value: 18, atEdge: true });
    expect(answer?.best).toMatchObject({ speedRpm: 9000, durationDeg: 194, value: 19 });
    expect(answer?.meetsDeg[0]).toBeCloseTo(190 + (4 * 4) / 4.5, 9);
    expect(answer?.landsDeg).toEqual([{ from: 194, to: 198 }]);
    expect(answer?.echo).toEqual({
      most: { durationDeg: 194, value: 1.3, atEdge: false },
      least: { durationDeg: 190, value: 1.1, atEdge: true },
      kind: 'elsewhere',
    });
  });

  test('as drawn: speeds, and the next step', () => {
    expect(answer?.drawnBest).toEqual({ speedRpm: 9000, torque: 19 });
    expect(answer?.meetsRpm).toEqual([]);
    expect(answer?.landsRpm).toEqual([{ from: 9000, to: 10_000 }]);
    expect(answer?.longer).toMatchObject({ fromDeg: 194, toDeg: 198, leadDeg: 4.5, torque: 1 });
    expect(answer?.longer?.roof).toBeCloseTo(0.001, 12);
    expect(answer?.shorter?.roof).toBeCloseTo(-0.001, 12);
    expect(answer?.longer?.echoGain).toBeCloseTo(-0.1, 12);
    expect(answer?.shorter).toMatchObject({ fromDeg: 194, toDeg: 190, leadDeg: -4.5, torque: -2 });
  });

  test('durations all but as good as the best, one after another', () => {
    const column = [18, 19.9, 20, 19.85, 19, 19.95].map((torque, k) =>
      point(180 + 4 * k, 9000, 5, torque, 1),
    );
    const read = mapAnswer(column, { targetSpeed: 9000, drawnDurationDeg: 188, roofTravel });
    expect(read?.bestTorque?.alike).toEqual({ from: 184, to: 192, lowest: 19.85 });
  });

  test('without a target the speed of most torque as drawn; without points nothing', () => {
    expect(mapAnswer(grid, { targetSpeed: null, drawnDurationDeg: 195, roofTravel })).toMatchObject({
      speedRpm: 9000,
      isTarget: false,
    });
    expect(mapAnswer([], { targetSpeed: null, drawnDurationDeg: 195, roofTravel })).toBeNull();
  });

  test('a reading that is absent crosses nothing and is no extreme', () => {
    const gaps = [point(190, 9000, -1, 1, 1), point(192, 9000, null, null, 1), point(194, 9000, 1, 2, 1)];
    expect(crossings(gaps, (p) => p.durationDeg, middleLead)).toEqual([]);
    const read = mapAnswer(gaps, { targetSpeed: 9000, drawnDurationDeg: 192, roofTravel });
    expect(read?.bestTorque?.durationDeg).toBe(194);
  });
});
