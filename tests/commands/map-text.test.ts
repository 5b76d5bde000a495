/** What a map says of the echo, as found: every verdict can be given, and none is the default. */

import { describe, expect, test } from 'vitest';
import { echoWords } from '../../src/commands/words/map-text.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import type { MapAnswer } from '../../src/study/map-answer.ts';
import { readMap } from '../../src/study/map-answer.ts';

function words(gains: readonly number[]): string {
  const points = gains.map((echo_gain, k) => ({
    durationDeg: 182 + 4 * k,
    row: { speed_rpm: 10_000, plugback_lead_deg: 1, torque_nm: 20, echo_gain } as SweepRow,
    notes: [],
  }));
  const answer = readMap(points, { targetSpeed: 10_000, drawnDurationDeg: 194 }, () => false);
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
    ['unread', [Number.NaN, Number.NaN], /could not be read/],
  ])('%s', (_, gains, said) => {
    expect(words(gains)).toMatch(said);
  });
});
