/** Ring: identity. What is judged of drafts that were not run alike, and when a study has failed, from rows made up here. */

import { describe, expect, test } from 'vitest';
import { compareHeadline, targetText, unfinishedText } from '../../plots/pages/compare-words.ts';
import { compareAnswer } from '../../src/findings/answers/compare.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { isFailedStudy } from '../../src/findings/settled.ts';
import { syntheticSweep } from '../plots/synthetic-sweep.ts';

const sample = syntheticSweep().rows[0] as SweepRow;
const rowsOf = (from: number, torques: readonly number[]): SweepRow[] =>
  torques.map((torque, k) => {
    const speed_rpm = from + 500 * k;
    const power_kw = (torque * speed_rpm * Math.PI) / 3e7;
    return { ...sample, speed_rpm, settled: true, torque_nm: torque, power_kw };
  });
const speeds = [8000, 8500, 9000, 9500, 10_000];
const whole = { name: 'A', rows: rowsOf(8000, [15, 18, 20, 19, 18]), asked: speeds };
const cut = { name: 'B', rows: rowsOf(8000, [16, 19, 19]), asked: speeds };
const none = { name: 'C', rows: [], asked: speeds };
const plain = (text: string): string => text.replaceAll('\u202f', ' ');

describe('drafts of which speeds are missing', () => {
  const answer = compareAnswer([whole, cut, none], 9500, null);

  test('are named with what is missing', () => {
    expect(answer.unfinished).toEqual([
      { name: 'B', missing: [9500, 10_000], done: 3 },
      { name: 'C', missing: speeds, done: 0 },
    ]);
    expect(plain(unfinishedText(answer.unfinished))).toBe(
      'Unfinished: B has no result at 9 500, 10 000 rpm; C was not run at all. Only what was run is judged.',
    );
    expect(unfinishedText(compareAnswer([whole], null, null).unfinished)).toBe('');
  });

  test('are judged where all were run: more speeds are no merit', () => {
    // Over all speeds A has the most power, 19 Nm at 9 500 rpm; up to 9 000 rpm it is 20 Nm there.
    expect(answer.best).toMatchObject({ over: { from: 8000, to: 9000 }, of: 2, powerSpeed: 9000 });
    expect(answer.best?.strong.map(({ summary }) => summary.name)).toEqual(['A']);
    expect(plain(compareHeadline(answer.best, 3))).toMatch(
      /^From 8 000 to 9 000 rpm, which all were run over:/,
    );
    expect(answer.differences.map(({ name, from, torque }) => [name, from, torque])).toEqual([
      ['B', 'A', -1],
    ]);
  });

  test('land nowhere that they were not run', () => {
    expect(answer.target?.landings.map(({ landing }) => landing === null)).toEqual([false, true, true]);
    expect(answer.target && targetText(answer.target)).toContain('Not run there: B, C.');
  });

  test('are not judged where they have no speed in common', () => {
    const apart = compareAnswer([whole, { name: 'D', rows: rowsOf(11_000, [20, 21]) }], null, null);
    expect(apart.best).toBeNull();
    expect(compareHeadline(apart.best, 2)).toBe('No speed was run of all drafts.');
  });
});

test('a study has failed where a draft has no settled row, not where a row is marked', () => {
  const loose = whole.rows.map((row, k) => ({ ...row, settled: k > 0 }));
  expect(isFailedStudy([whole.rows, loose])).toBe(false);
  expect(isFailedStudy([whole.rows, loose.map((row) => ({ ...row, settled: false }))])).toBe(true);
  expect(isFailedStudy([whole.rows, []])).toBe(true);
});
