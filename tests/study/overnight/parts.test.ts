/** Ring: exact solution and identity. What a study's score depends on, what a screen would drop, and the drafts' numbers. */

import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { loadStudy } from '../../../src/case/study/study-load.ts';
import { draftsOf } from '../../../src/study/overnight/drafts.ts';
import { importanceOf } from '../../../src/study/overnight/importance.ts';
import { orderByScore } from '../../../src/study/overnight/ranking.ts';
import { checkScreen } from '../../../src/study/overnight/screen-check.ts';
import { randomSource } from '../../../src/study/search/random.ts';
import { cheapText, newFolder } from './cheap.ts';

describe('importance', () => {
  test('is the share of the variance in a sum of independent quantities', () => {
    // s = 2a + b on uniform a, b: variances 4/12 and 1/12, so 0.8 and 0.2; c does nothing.
    const random = randomSource(3);
    const values = Array.from({ length: 4000 }, () => [random.uniform(), random.uniform(), random.uniform()]);
    const scores = values.map(([a, b]) => 2 * (a as number) + (b as number));
    const [a, b, c] = importanceOf(['a', 'b', 'c'], values, scores).map(({ share }) => share) as [
      number,
      number,
      number,
    ];
    // Eight groups take 1 - 1/64 of a straight line's variance; the rest is the scatter of four thousand draws.
    expect(a).toBeCloseTo(0.8 * (1 - 1 / 64), 1);
    expect(b).toBeCloseTo(0.2 * (1 - 1 / 64), 1);
    expect(c).toBeLessThan(0.02);
  });

  test('on a grid is exact, and without drafts says nothing', () => {
    const values = [0, 1, 2, 3].flatMap((a) => [0, 1, 2, 3].map((b) => [a, b]));
    const shares = importanceOf(
      ['a', 'b'],
      values,
      values.map(([a]) => a as number),
    );
    expect(shares[0]?.share).toBe(1);
    expect(shares[1]?.share).toBe(0);
    expect(importanceOf(['a'], values.slice(0, 5), [1, 2, 3, 4, 5])).toEqual([]);
  });
});

describe('a screen', () => {
  test('that tells the truth drops no winner; one that tells its opposite drops every', () => {
    const full = Array.from({ length: 40 }, (_, k) => Math.sin(k));
    expect(checkScreen(full, full, 0.25)).toMatchObject({ winnerPlace: 1, kept: 10, droppedShare: 0 });
    expect(
      checkScreen(
        full.map((s) => -s),
        full,
        0.25,
      ),
    ).toMatchObject({ winnerPlace: 40, droppedShare: 1 });
  });

  test('that tells nothing drops the winner as often as it drops any', () => {
    const random = randomSource(5);
    const shares = Array.from({ length: 60 }, () => {
      const [screen, full] = [0, 1].map(() => Array.from({ length: 40 }, () => random.uniform())) as [
        number[],
        number[],
      ];
      return checkScreen(screen, full, 0.25)?.droppedShare ?? Number.NaN;
    });
    // Five of twenty are kept: three quarters dropped, give or take the scatter of sixty studies.
    expect(shares.reduce((a, b) => a + b, 0) / 60).toBeGreaterThan(0.65);
    expect(shares.reduce((a, b) => a + b, 0) / 60).toBeLessThan(0.85);
  });
});

test('equal scores rank by number, and what has none is left out', () => {
  const scores = [1, 3, null, 3, 2];
  expect(orderByScore(5, (k) => scores[k] ?? null)).toEqual([1, 3, 4, 0]);
});

describe('drafts', () => {
  test('have the values of their number, in the unit of the file, and a case of them', () => {
    const folder = newFolder();
    const drafts = draftsOf(loadStudy(folder.study, { set: [], columns: [] }), null);
    expect(drafts.count).toBe(20);
    // The last quantity runs fastest: number 7 is the second length with the third bore.
    expect(drafts.values(7)).toEqual([180, 23]);
    const { pipe, run } = drafts.caseAt(7);
    const baffle = pipe.sections.find(({ role }) => role === 'baffle');
    expect([baffle?.length, baffle?.diameter[1]]).toEqual([0.18, 0.023]);
    expect([run.speeds, run.cell]).toEqual([[10_000], 0.02]);
    folder.remove();
  });

  test('of a sample are spread over the ranges, the same for the same seed', () => {
    const folder = newFolder(
      cheapText
        .replace(', step: 20 mm', '')
        .replace('values: [21 mm, 22 mm, 23 mm, 24 mm, 200 mm]', 'from: 2.1 cm, to: 2.4 cm')
        .replace('constraints:', 'sample: { latin: { count: 10, seed: 4 } }\nconstraints:'),
    );
    const lead = loadStudy(folder.study, { set: [], columns: [] });
    const values = Array.from({ length: 10 }, (_, k) => draftsOf(lead, null).values(k));
    const tenth = (value: number, from: number, to: number): number =>
      Math.floor((10 * (value - from)) / (to - from));
    // A Latin hypercube has one draft in every tenth of every range.
    expect(values.map(([length]) => tenth(length as number, 160, 220)).sort()).toEqual([
      0, 1, 2, 3, 4, 5, 6, 7, 8, 9,
    ]);
    expect(values.map(([, bore]) => tenth(bore as number, 2.1, 2.4)).sort()).toEqual([
      0, 1, 2, 3, 4, 5, 6, 7, 8, 9,
    ]);
    expect(draftsOf(lead, null).values(3)).toEqual(values[3]);
    folder.remove();
  });

  test('of a folder are its pipes', () => {
    const folder = newFolder(
      `kind: study\ncase: ${join(import.meta.dirname, '../../../cases/saltmarsh-125/draft-a.yaml')}\npipes: ${join(import.meta.dirname, '../../../cases/saltmarsh-125')}\nspeeds: [9000 rpm]\nscore: [torqueAt: 9000 rpm]\n`,
    );
    const drafts = draftsOf(loadStudy(folder.study, { set: [], columns: [] }), null);
    expect([0, 1, 2].map((k) => [drafts.name(k), drafts.caseAt(k).pipe.name])).toEqual([
      ['pipe-a', 'A, broad'],
      ['pipe-b', 'B, peaky'],
      ['pipe-c', 'C, too long'],
    ]);
    expect(drafts.values(0)).toHaveLength(3);
    folder.remove();
  });
});
