/** Ring: identity. Scores from rows, with curves of which every reading is known. */

import { describe, expect, test } from 'vitest';
import type { SweepRow } from '../../../src/findings/row.ts';
import type { ScoreTerm } from '../../../src/model/study.ts';
import { scoreName, scoreOf, scoreText } from '../../../src/study/work/score.ts';

/** Torque falls from its best at 10 000 rpm by 1 Nm a thousand revolutions, straight on both sides. */
const rows = [8000, 9000, 10_000, 11_000, 12_000].map(
  (speed) =>
    ({
      speed_rpm: speed,
      torque_nm: 20 - Math.abs(speed - 10_000) / 1000,
      power_kw: speed / 1000,
      plugback_lead_deg: (speed - 9000) / 100,
      suction_bar: speed === 9000 ? null : 0.5,
    }) as unknown as SweepRow,
);
const scored = (...terms: ScoreTerm[]): number => {
  const one = scoreOf(terms, rows);
  if (!one.ok) throw new Error(one.reason);
  return one.score;
};

describe('a term', () => {
  test.each<[ScoreTerm, number]>([
    [{ kind: 'torqueAt', speed: 10_500, weight: 1 }, 19.5],
    [{ kind: 'powerAt', speed: 8000, weight: 1 }, 8],
    // The mean of a straight line from 19 to 20 and back to 18.
    [{ kind: 'averageTorque', from: 9000, to: 12_000, weight: 1 }, (19.5 + 19.5 + 18.5) / 3],
    // Ends between the speeds: 18.5 to 19 over half, 19 to 19.5 over half.
    [{ kind: 'averageTorque', from: 8500, to: 9500, weight: 1 }, 19],
    [{ kind: 'averagePower', from: 8000, to: 12_000, weight: 1 }, 10],
    [{ kind: 'leadAt', speed: 11_000, wanted: 15, weight: 1 }, -5],
    [{ kind: 'leadAt', speed: 10_000, wanted: 15, weight: 2 }, -10],
    // 95 % of 20 is 19: reached at 9000 and 11 000.
    [{ kind: 'bandWidth', of: 'torque', share: 0.95, weight: 1 }, 2000],
    // Power rises to the end: 11.4 of 12 kW from 11 400 rpm on.
    [{ kind: 'bandWidth', of: 'power', share: 0.95, weight: 1 }, 600],
    [{ kind: 'column', name: 'plugback_lead_deg', speed: 9500, weight: -1 }, -5],
  ])('%j', (term, value) => {
    expect(scored(term)).toBeCloseTo(value, 9);
  });

  test('that cannot be read is a failure with its name', () => {
    expect(scoreOf([{ kind: 'column', name: 'suction_bar', speed: 9000, weight: 1 }], rows)).toEqual({
      ok: false,
      reason: 'no suction_bar at 9000 rpm can be read',
    });
    expect(scoreOf([{ kind: 'torqueAt', speed: 13_000, weight: 1 }], rows).ok).toBe(false);
  });
});

test('a score is the weighted sum, and says so', () => {
  const terms: ScoreTerm[] = [
    { kind: 'torqueAt', speed: 10_000, weight: 1 },
    { kind: 'leadAt', speed: 10_000, wanted: 20, weight: 0.1 },
  ];
  expect(scored(...terms)).toBeCloseTo(20 - 1, 12);
  expect(scoreText(terms)).toBe('torque at 10000 rpm [Nm] + 0.1 x lead off 20 deg at 10000 rpm [deg]');
  expect(scoreName(terms)).toEqual({ name: 'score', unit: '' });
  expect(scoreName(terms.slice(0, 1))).toEqual({ name: 'torque at 10000 rpm', unit: 'Nm' });
});
