/** What a map says of the echo, as found: every verdict can be given, and none is the default. */

import { describe, expect, test } from 'vitest';
import { mapHeadline } from '../../plots/pages/map-words.ts';
import { echoWords, mapFindings } from '../../src/commands/words/map-text.ts';
import { type BestTorque, type MapAnswer, mapAnswer } from '../../src/findings/answers/map.ts';
import type { SweepRow } from '../../src/findings/row.ts';

function words(gains: readonly (number | null)[]): string {
  const points = gains.map((echo_gain, k) => ({
    durationDeg: 182 + 4 * k,
    row: {
      speed_rpm: 10_000,
      exhaust_closes_deg: 278,
      plugback_centroid_deg: 277,
      torque_nm: 20,
      echo_gain,
    } as SweepRow,
  }));
  const asked = { targetSpeed: 10_000, drawnDurationDeg: 194, roofTravel: () => 0 };
  const answer = mapAnswer(points, asked);
  return echoWords(answer as MapAnswer);
}

describe('the echo over duration', () => {
  test.each([
    // 182, 186, 190, 194, 198 deg
    [
      'at an edge',
      [1.2, 1.1, 1.05, 1.0, 0.9],
      /largest with 182 deg \(1\.20\), smallest with 198 deg .*edge of the map: no peak/,
    ],
    ['near 190', [1.0, 1.1, 1.2, 1.1, 1.0], /largest with 190 deg .*a peak near 190 deg, as common practice/],
    ['elsewhere', [1.0, 1.0, 1.1, 1.3, 1.0], /largest with 194 deg .*a peak, but not near the 190 deg/],
    [
      'hardly above the edge',
      [1.19, 1.1, 1.2, 1.1, 1.0],
      /The edge of the map has as much: no distinct peak/,
    ],
    ['level', [1.001, 1.002, 1.0, 1.001, 1.0], /1\.00 at every duration, so it chooses none/],
    ['unread', [null, null], /could not be read/],
  ])('%s', (_, gains, said) => {
    expect(words(gains)).toMatch(said);
  });
});

describe('the answer of a map', () => {
  const row = (torque: number, middle: number, opening: number): SweepRow =>
    ({
      speed_rpm: 10_000,
      exhaust_closes_deg: 278,
      plugback_centroid_deg: middle,
      torque_nm: torque,
      echo_gain: 1,
      packed_mass_ratio: 0.1,
      transfer_opening_cylinder_bar: opening,
    }) as SweepRow;
  const texts = (rows: readonly SweepRow[]): Record<string, string> => {
    const points = rows.map((one, k) => ({ durationDeg: 190 + 4 * k, row: one }));
    const roofTravel = (durationDeg: number): number => (200 - durationDeg) * 2e-4;
    const asked = { targetSpeed: 10_000, drawnDurationDeg: 195, roofTravel };
    const answer = mapAnswer(points, asked) as MapAnswer;
    return Object.fromEntries(mapFindings(answer).map(({ label, text }) => [label, text]));
  };

  test('a step says what it gains, with what cut, and by what', () => {
    const said = texts([row(20, 260, 2.2), row(21, 262, 2), row(21.9, 258, 1.8)]);
    expect(said['A step longer']).toBe(
      "At 10000 rpm, 4 deg longer (194 to 198, roofs 0.8 mm higher) gains 0.9 Nm: the wave's middle lies 4.0 deg further " +
        'before exhaust closing, the cylinder stands 0.20 bar lower as the transfers open.',
    );
    expect(said['A step shorter']).toMatch(/roofs 0\.8 mm lower\) loses 1\.0 Nm: .* 2\.0 deg further before/);
  });

  test('the drawn duration is named as drawn, the computed one beside it', () => {
    const said = texts([row(20, 260, 2), row(20.1, 262, 2), row(20.05, 258, 2)]);
    expect(said['As drawn, 195 deg']).toMatch(/^Nearest computed, 194 deg: most torque at 10000 rpm/);
    expect(said['Target 10000 rpm']).toMatch(
      /190 to 198 deg are all within 1 % .*\(20\.0 to 20\.1 Nm\); as drawn is as good/,
    );
    expect(said['A step longer']).toMatch(/leaves the torque as it is/);
  });
});

test('torques that are written alike stand once', () => {
  const best = {
    durationDeg: 196,
    speedRpm: 10_500,
    value: 21.94,
    alike: { from: 192, to: 196, lowest: 21.86 },
  } as unknown as BestTorque;
  expect(mapHeadline(best)).toContain(': 21.9\u202fNm at');
  expect(mapHeadline({ ...best, alike: { ...best.alike, lowest: 21.7 } })).toContain(
    ': 21.7 to 21.9\u202fNm at',
  );
});
