/** Ring: identity. What the pages of studies say of their drafts, against rows and numbers made up here. */

import { describe, expect, it } from 'vitest';
import { thumbnail } from '../../plots/figures/thumbnail.ts';
import { safetyText } from '../../plots/pages/aim-words.ts';
import { bandText, compareHeadline, endWords } from '../../plots/pages/compare-words.ts';
import { sectionNames } from '../../plots/pages/dimension-table.ts';
import { keptExtremes } from '../../plots/pages/kept-extremes.ts';
import { decimalsFor, importanceText } from '../../plots/pages/overnight-words.ts';
import { pulsePage } from '../../plots/pages/pulse-page.ts';
import { unsettledText } from '../../plots/pages/unsettled.ts';
import type { Markup } from '../../plots/theme/markup.ts';
import { type SafetyQuestion, safetyOf } from '../../src/findings/answers/aim-safety.ts';
import { compareAnswer } from '../../src/findings/answers/compare.ts';
import { endOf, importanceAnswer, overnightAnswer } from '../../src/findings/answers/overnight.ts';
import { bandOf } from '../../src/findings/band.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { syntheticPulse } from './synthetic-pages.ts';
import { syntheticSweep } from './synthetic-sweep.ts';

const sample = syntheticSweep().rows[0] as SweepRow;

/** Rows every 250 rpm from a speed on, with these torques. */
const rowsOf = (from: number, torques: readonly number[]): SweepRow[] =>
  torques.map((torque, i) => {
    const speed = from + 250 * i;
    return { ...sample, speed_rpm: speed, torque_nm: torque, power_kw: (torque * speed * Math.PI) / 3e7 };
  });

const safety = (asked: SafetyQuestion) => {
  const answer = safetyOf(asked);
  return { onEdge: answer?.onEdge, ...safetyText(answer) };
};

const plain = (text: string): string => text.replaceAll('\u202f', ' ');

describe('how safe an aimed pipe is', () => {
  const after = { rows: rowsOf(10_000, [18, 19, 20, 23, 24, 23, 13, 13]) };
  const wide = { rows: rowsOf(10_000, [19, 19, 20, 20, 20, 20, 20, 19.5]) };
  const still = { name: 'baffle', step: '10 mm', torqueLessNm: -0.2, torqueMoreNm: 0.1 };
  const cliff = { name: 'header', step: '10 mm', torqueLessNm: -1.1, torqueMoreNm: -11.2 };

  it('holds over the unbroken run of speeds that keep nine tenths', () => {
    const held = (rows: readonly SweepRow[], about: number) => bandOf(rows, 'torque_nm', { about });
    // 21.6 Nm: 1.6 of the 3 Nm between 10 500 and 10 750, 1.4 of the 10 between 11 250 and 11 500.
    expect(held(after.rows, 11_000)?.from).toBeCloseTo(10_500 + (250 * 1.6) / 3, 9);
    expect(held(after.rows, 11_000)?.to).toBeCloseTo(11_250 + (250 * 1.4) / 10, 9);
    expect(held(wide.rows, 11_000)).toEqual({ from: 10_000, to: 11_750, openBelow: true, openAbove: true });
    // Half-way down the edge, at 18 Nm: 1.8 of the 10 Nm further.
    expect(held(after.rows, 11_375)?.to).toBeCloseTo(11_375 + (250 * 1.8) / 10, 9);
    expect(held(after.rows, 9000)).toBeNull();
  });

  it('names the edge, the side that is safe, and the pipe that is safer', () => {
    const found = safety({ targetSpeed: 11_000, after, start: wide, sensitivities: [still, cliff] });
    expect(found.onEdge).toBe(true);
    expect(plain(found.how)).toBe(
      '10 mm more header loses 11.2 Nm. It keeps nine tenths of its torque from 10 650 to about 11 300 rpm; at 11 500 rpm 11.0 Nm are gone.',
    );
    expect(plain(found.advice)).toContain('Build header 10 mm short, which costs 1.1 Nm');
    expect(plain(found.advice)).toContain('handbook’s pipe gives 20.0 Nm there');
  });

  it('advises the other side where less is the edge, and neither where both are', () => {
    const less = { ...cliff, torqueLessNm: -9, torqueMoreNm: 0.02 };
    const of = (one: typeof cliff, on = after) =>
      safety({ targetSpeed: 11_000, after: on, start: null, sensitivities: [one] }).advice;
    expect(of(less, wide)).toContain('Build header 10 mm long, which costs nothing');
    expect(of({ ...cliff, torqueLessNm: -5 })).toContain('Both sides of header fall off');
    // Longer would bring the edge at 11 500 rpm down.
    expect(of(less)).toContain('Hold its lengths to a millimetre or two: longer brings the edge above down');
  });

  it('says when the search ended on a slope', () => {
    const slope = { ...still, torqueMoreNm: 0.9 };
    const { advice } = safety({ targetSpeed: 11_000, after: wide, start: null, sensitivities: [slope] });
    expect(plain(advice)).toMatch(/^10 mm more baffle would gain 0\.9 Nm: .* more drafts\.$/);
  });

  it('aims again away from an edge in speed on one side', () => {
    const above = { rows: rowsOf(10_000, [23, 23, 23, 23, 24, 10, 10]) };
    const found = safety({ targetSpeed: 11_000, after: above, start: null, sensitivities: [still] });
    expect(found).toMatchObject({ onEdge: true });
    expect(found.advice).toContain('aim again, at 11 500 rpm');
  });

  it('finds no edge where there is none', () => {
    const found = safety({ targetSpeed: 11_000, after: wide, start: null, sensitivities: [still] });
    expect(found).toMatchObject({ onEdge: false, advice: '' });
    expect(plain(found.how)).toContain('Nothing tried on it loses more than 0.2 Nm: 10 mm less baffle.');
  });
});

describe('the headline of a comparison', () => {
  const a = { name: 'A', rows: rowsOf(9000, [10, 19, 20, 19, 10, 5]) };
  const b = { name: 'B', rows: rowsOf(9000, [10, 12, 14, 16, 18, 24]) };
  const headline = (...drafts: readonly { name: string; rows: readonly SweepRow[] }[]): string => {
    const { best, drafts: compared } = compareAnswer(drafts, null, null);
    return plain(compareHeadline(best, compared.length));
  };
  const one = (draft: typeof a) => compareAnswer([draft], null, null).drafts[0];

  it('gives the broadest to nobody by less than a step', () => {
    const same = { name: 'C', rows: rowsOf(9000, [10, 18.5, 19.5, 18.5, 9, 4]) };
    expect(headline(a, same)).toMatch(/^“A” has the most power, .*; their torque is equally broad/);
    // 18 Nm lies a ninth of a step below 9 250 and a ninth above 9 750.
    expect(headline(a, b)).toMatch(/; “A” the broadest torque, 556 rpm wide\.$/);
  });

  it('says that a best at the end of the range may not be the best', () => {
    expect(headline(a, b)).toContain('“B” has the most power, at least ');
    const [first, second] = compareAnswer([a, b], null, null).drafts;
    expect(first && endWords(first)).toBe('');
    expect(second && endWords(second)).toMatch(/^B: most torque and power at the end of the range/);
  });

  it('shares a power that differs by less than a hundredth', () => {
    const nearly = { name: 'C', rows: rowsOf(9000, [10, 19, 19.95, 18.95, 10, 5]) };
    expect(headline(a, nearly)).toMatch(/^All share the most power/);
  });

  it('writes a band that goes on beyond the range as at least so wide', () => {
    const found = one(b);
    // 21.6 of 24 Nm, 2.4 of the 6 Nm of the last step.
    expect(found?.summary.torqueBand).toBeCloseTo((250 * 2.4) / 6, 9);
    expect(bandText(found?.summary.torqueBand ?? null, found?.torqueBandOpen ?? false)).toBe('≥ 100');
    expect(headline()).toBe('No draft was finished.');
  });
});

describe('a ranking in words', () => {
  it('writes all values of a column with as many decimals', () => {
    expect(decimalsFor([18.61, 18.5, null])).toBe(2);
    expect(decimalsFor([250, 280])).toBe(0);
    expect(decimalsFor([22.5, 23])).toBe(1);
    expect(decimalsFor([0.123_46, 0.1])).toBe(4);
    expect(decimalsFor([])).toBe(0);
  });

  it('knows the best at an end of what was tried', () => {
    expect(endOf([23, 20, 21.5])).toBe('most');
    expect(endOf([20, 23, 21.5])).toBe('least');
    expect(endOf([21, 20, 23])).toBeNull();
    expect(endOf([21, 21])).toBeNull();
  });

  it('tells an end only of a range that may be widened and that the score feels', () => {
    const drafts = [
      [23, 5, 1],
      [20, 4, 2],
      [21, 3, 3],
    ].map((values, k) => ({ name: `${k}`, score: -k, values }));
    const quantities = [
      { name: 'bore', ranged: true },
      { name: 'length', ranged: false },
      { name: 'angle', ranged: true },
    ];
    const shares = [
      { name: 'bore', share: 0.5 },
      { name: 'angle', share: 0.01 },
    ];
    const lost = { name: 'lost', score: null, values: [99, 99, 99] };
    const answer = overnightAnswer([...drafts, lost], quantities, shares);
    expect(answer).toMatchObject({ winner: drafts[0], failed: 1, ends: [{ quantity: 0, end: 'most' }] });
    // A study broken off has not come to the ends of its ranges.
    expect(overnightAnswer([...drafts, lost], quantities, shares, true).ends).toEqual([]);
  });

  it('leaves nothing of the variation out', () => {
    const shares = [
      { name: 'header', share: 0.33 },
      { name: 'bore', share: 0.08 },
    ];
    const answer = importanceAnswer(shares);
    expect(answer && plain(importanceText(answer))).toMatch(
      /^Most on header: 33 %.* the 2 explain 41 %; the other 59 %/,
    );
    expect(importanceAnswer([])).toBeNull();
  });

  it('never explains more than all', () => {
    const shares = ['header', 'bore'].map((name) => ({ name, share: 0.62 }));
    const answer = importanceAnswer(shares);
    expect(answer).toMatchObject({ alone: 1, rest: null });
    expect(answer && plain(importanceText(answer))).toContain('explain 100 %');
  });

  it('names the speeds that did not settle', () => {
    const rows = rowsOf(9000, [1, 2, 3]).map((row, i) => ({ ...row, settled: i !== 1 }));
    expect(plain(unsettledText([{ name: 'A', rows }]))).toContain('A at 9 250 rpm');
    expect(unsettledText([{ name: 'A', rows: rows.filter(({ settled }) => settled) }])).toBe('');
  });
});

describe('dimensions side by side', () => {
  it('keep a section of one pipe only in its place', () => {
    const outline = (...names: string[]) => ({
      name: '',
      outline: names.map((name) => ({ name, role: '', start: 0, end: 1, diameters: [1, 1] as const })),
    });
    expect(
      sectionNames([outline('header', 'belly', 'tail'), outline('header', 'cone', 'belly', 'tail', 'end')]),
    ).toEqual(['header', 'cone', 'belly', 'tail', 'end']);
  });
});

describe('long series made short', () => {
  const values = Array.from({ length: 5000 }, (_, i) => Math.sin(i / 300) + (i === 1777 ? 5 : 0));

  it('keep their highest and lowest', () => {
    const kept = keptExtremes([values, values.map((v) => -v)], 400);
    expect(kept.length).toBeLessThanOrEqual(402);
    expect(Math.max(...kept.map((i) => values[i] ?? 0))).toBe(Math.max(...values));
    expect(Math.min(...kept.map((i) => values[i] ?? 0))).toBe(Math.min(...values));
    expect([kept[0], kept.at(-1)]).toEqual([0, 4999]);
  });

  it('are left as they are if they are short', () => {
    expect(keptExtremes([values], 5000)).toHaveLength(5000);
  });
});

describe('the headline of a pulse', () => {
  const quiet = syntheticPulse();
  const still = (value: number, count: number): number[] => Array.from({ length: count }, () => value);

  it('takes no wave within a hundredth of the surroundings for one', () => {
    const page = (height: number): string => {
      const [probe] = quiet.probes;
      if (probe === undefined) throw new Error('the synthetic pulse has no probe');
      const { length } = probe.time;
      const forward = still(quiet.ambientPressure, length).map((p, i) => (i === 100 ? p + height : p));
      const one = { ...probe, name: 'right', forward, backward: still(quiet.ambientPressure, length) };
      const text = pulsePage({ ...quiet, probes: [one] }, { plotly: '', script: '' });
      return plain(/<h1>(.*?)<\/h1>/.exec(text)?.[1] ?? '');
    };
    expect(page(0)).toBe('No wave of higher pressure passes a probe.');
    expect(page(500)).toMatch(/^Only weak waves pass: at most 5\.00 mbar, at “right” running right after/);
    expect(page(20_000)).toMatch(
      /^The strongest wave passes at “right”: [\d.]+ bar running right after [\d.]+ ms\.$/,
    );
  });
});

describe('thumbnails', () => {
  const heights = (svg: Markup): number[][] =>
    [...String(svg).matchAll(/points="([^"]+)"/g)].map(([, points = '']) =>
      points.split(' ').map((point) => Number(point.split(',')[1])),
    );

  it('draw curves of one kind to one scale, torque from nought', () => {
    const x = [0, 1];
    const [high = [], low = []] = heights(
      thumbnail(
        [
          { kind: 'draft', x, y: [10, 20] },
          { kind: 'draft', x, y: [10, 15] },
        ],
        '',
      ),
    );
    expect(high[0]).toBe(low[0]);
    // From 56 at nought to 4 at 20 Nm.
    expect(high).toEqual([30, 4]);
    expect(low[1]).toBe(17);
  });

  it('draw noise as next to nothing', () => {
    const [flat = []] = heights(thumbnail([{ kind: 'returning', x: [0, 1, 2], y: [1, 1.0002, 1] }], ''));
    expect(Math.max(...flat) - Math.min(...flat)).toBeLessThan(3);
  });
});
