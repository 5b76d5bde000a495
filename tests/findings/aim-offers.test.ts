/** Ring: identity. Which of the pipes that an aim offers is to be built first, and what is said of each, from rows made up here. */

import { describe, expect, test } from 'vitest';
import { dimensionsText, firstText, rulesText, worksText } from '../../plots/pages/aim-offers.ts';
import { aimAnswer } from '../../src/findings/answers/aim.ts';
import { type OfferedPipe, offersAnswer } from '../../src/findings/answers/aim-steps.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { syntheticSweep } from '../plots/synthetic-sweep.ts';

const sample = syntheticSweep().rows[0] as SweepRow;
const asked = { targetSpeed: 11_000, halfBand: 500 };
/** Rows every 250 rpm from 10 000, all of which land. */
const rowsOf = (...torques: readonly number[]): SweepRow[] =>
  torques.map((torque, k) => ({
    ...sample,
    speed_rpm: 10_000 + 250 * k,
    settled: true,
    torque_nm: torque,
    plugback_centroid_deg: (sample.transfers_close_deg + sample.exhaust_closes_deg) / 2,
    plugback_share_before_closing: 0.8,
  }));
const given = { rows: rowsOf(14, 14, 14, 14, 14, 14, 14, 14), mean: 14 };
const level = rowsOf(19, 20, 20, 20, 20, 20, 20, 18);
const header = [{ name: 'header', before: 0.29, after: 0.19 }];
const offer = (id: string, mean: number, more: Partial<OfferedPipe> = {}): OfferedPipe => ({
  id,
  rows: level,
  mean,
  build: { by: 0.003, less: mean - 0.1, more: mean + 0.2 },
  dimensions: header,
  rules: [],
  ...more,
});
const answer = (...offers: readonly OfferedPipe[]) => offersAnswer({ ...asked, given, offers });
const shown = (...offers: readonly OfferedPipe[]) => {
  const { given: before, first, offers: answers } = answer(...offers);
  return { ...asked, given: before, first, offers: answers.map((one) => ({ ...one, file: null })) };
};
const plain = (text: string): string => text.replaceAll('\u202f', ' ');

describe('what is built first', () => {
  const baffle = [...header, { name: 'baffle', before: 0.21, after: 0.19 }];

  test('is the smallest change with nine tenths of the greatest gain', () => {
    const all = offer('all', 24, { dimensions: null });
    expect(answer(offer('header', 23), offer('two', 23.5, { dimensions: baffle }), all).first).toBe('header');
    expect(answer(offer('header', 22.9), offer('two', 23.5, { dimensions: baffle }), all).first).toBe('two');
    expect(answer(offer('header', 20), offer('two', 21, { dimensions: baffle }), all).first).toBe('all');
  });

  test('is nothing where no gain is worth the metal', () => {
    // 1.5 % of 14 Nm are 0.21.
    expect(answer(offer('header', 14.2), offer('all', 14.2, { dimensions: null })).first).toBeNull();
    expect(answer(offer('header', 14.22)).first).toBe('header');
    expect(answer(offer('header', 14, { dimensions: [] })).first).toBeNull();
    expect(firstText(shown(offer('header', 14.2)))).toMatch(/^Leave the pipe as it is/);
  });

  test('is said with what it gives, where it works and what a build a little off costs', () => {
    expect(plain(firstText(shown(offer('header', 20), offer('all', 20.3, { dimensions: null }))))).toBe(
      'Header 190 mm (was 290): 20.0 Nm on average from 10 500 to 11 500 rpm, 6.0 Nm more than now, 95 % of the most ' +
        'that was found. Works from 10 000 or below to 11 750 or above rpm. 3 mm more or less of header cost at most 0.1 Nm.',
    );
  });
});

describe('an offer', () => {
  test('has its least torque within the band, and is robust by that and by its build', () => {
    const edge = offer('header', 19, { rows: rowsOf(12, 19, 20, 20, 20, 20, 16, 8) });
    const [one] = answer(edge).offers;
    expect(one?.least).toEqual({ speedRpm: 11_500, torque: 16 });
    expect(one?.isRobust).toBe(false);
    expect(answer(offer('header', 20)).offers[0]).toMatchObject({ isRobust: true });
    const narrow = offer('header', 20, { build: { by: 0.003, less: 17.9, more: 20 } });
    expect(answer(narrow).offers[0]?.isRobust).toBe(false);
    expect(answer(narrow).offers[0]?.build?.lost).toBeCloseTo(2.1, 9);
    const failed = offer('header', 20, { build: { by: 0.003, less: null, more: 20 } });
    expect(answer(failed).offers[0]).toMatchObject({ build: null, isRobust: false });
  });

  test('that repeats the step before is known for such', () => {
    const { offers } = answer(offer('header', 20), offer('two', 20));
    expect(offers.map(({ isRepeated }) => isRepeated)).toEqual([false, true]);
  });

  test('says what it changes, what rules it misses and where it works', () => {
    const many = ['a', 'b', 'c', 'd'].map((name, k) => ({ name, before: 0.1, after: 0.11 + 0.01 * k }));
    const { offers } = shown(offer('all', 20, { dimensions: many, rules: ['Stinger length 3.7'] }));
    expect(plain(offers.map(dimensionsText).join())).toBe(
      'd 140 mm (was 100), c 130 mm (was 100), b 120 mm (was 100) and 1 more',
    );
    expect(rulesText(shown(offer('all', 20, { rules: ['Stinger length 3.7'] })))).toBe(
      'All lengths and bores: Stinger length 3.7.',
    );
    expect(worksText({ lands: null, works: null, openBelow: false, openAbove: false })).toMatch(/^nowhere/);
  });
});

describe('the headline of an aim', () => {
  const change = (name: string, before: number, after: number) => ({ name, unit: 'mm', before, after });
  const of = (scoreBefore: number | null, scoreAfter: number | null) =>
    aimAnswer({
      targetSpeed: 11_000,
      before: { rows: given.rows },
      after: { rows: level },
      scoreBefore,
      scoreAfter,
      changes: [change('a', 10, 10.04), change('b', 10, 12), change('c', 10, 5), change('d', 1, 2)],
      startedFrom: 'draft',
      start: null,
    });

  test('claims a gain that is worth the metal, none below it, and nothing of what was not computed', () => {
    expect(of(14, 14.2).verdict).toBe('none');
    expect(of(14, 14.22).verdict).toBe('gains');
    expect(of(14, 13).verdict).toBe('none');
    expect(of(null, 20)).toMatchObject({ verdict: 'unknown', gain: null });
  });

  test('names what changed most, and not what did not', () => {
    expect(of(14, 20).told.map(({ name }) => name)).toEqual(['c', 'b', 'd']);
    expect(of(14, 20).before.torque).toBe(14);
    expect(of(14, 20).after.landing).toBe('lands');
  });
});
