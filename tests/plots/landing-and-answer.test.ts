import { describe, expect, it } from 'vitest';
import { differenceText, targetText } from '../../plots/pages/compare-words.ts';
import { landingSentence, middleWords } from '../../plots/pages/landing-words.ts';
import { type SweepText, sweepText } from '../../plots/pages/sweep-words.ts';
import type { AdviceReport, NoAdvice, Purpose } from '../../src/findings/answers/advice.ts';
import { differenceBetween } from '../../src/findings/answers/compare-difference.ts';
import { summarise } from '../../src/findings/answers/compare-summary.ts';
import { targetAnswer } from '../../src/findings/answers/compare-target.ts';
import { sweepAnswer } from '../../src/findings/answers/sweep.ts';
import { bandOf, landingBands, widthOf } from '../../src/findings/band.ts';
import { curveOf, valueAt } from '../../src/findings/curve.ts';
import { HEADER_SHARE, headerFor, reflectingLength } from '../../src/findings/header-estimate.ts';
import { landing } from '../../src/findings/landing.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { syntheticOutline, syntheticSweep } from './synthetic-sweep.ts';

const { rows } = syntheticSweep();
const said = (
  of: readonly SweepRow[],
  targetSpeed: number | null,
  advice: AdviceReport | null = null,
): SweepText => sweepText(sweepAnswer(of, targetSpeed), advice);
const at = (speed: number): SweepRow => {
  const row = rows.find((one) => one.speed_rpm === speed);
  if (!row) throw new Error(`no row at ${speed}`);
  return row;
};
const moved = (middle: number | null, share: number | null): SweepRow => ({
  ...at(9000),
  plugback_centroid_deg: middle,
  plugback_share_before_closing: share,
});

describe('where the wave lands', () => {
  it('is told by the window between transfer and exhaust closing and by the share in time', () => {
    expect(landing(moved(245, 0.9))).toBe('early');
    expect(landing(moved(262, 0.7))).toBe('lands');
    expect(landing(moved(262, 0.4))).toBe('late');
    expect(landing(moved(278, 0.6))).toBe('late');
    expect(landing(moved(null, null))).toBe('none');
  });

  it('goes by the middle of the wave: a peak that jumps to another crest changes nothing', () => {
    expect(landing({ ...moved(262, 0.7), plugback_peak_deg: 240 })).toBe('lands');
    expect(landing({ ...moved(240, 0.9), plugback_peak_deg: 262 })).toBe('early');
  });

  it('joins neighbouring useful speeds to bands, the widest first', () => {
    const kinds = [262, 230, 262, 262, 262, 300];
    const bands = landingBands(
      kinds.map((middle, i) => ({
        ...moved(middle, 0.7),
        speed_rpm: 8000 + 250 * i,
      })),
    );
    expect(bands).toEqual([
      { from: 8500, to: 9000 },
      { from: 8000, to: 8000 },
    ]);
  });
});

describe('the landing in words', () => {
  // TC 246°, EC 277° in the synthetic sweep.
  it('says how far from which closing', () => {
    expect(middleWords(moved(240, 0.9))).toBe('is back 6° before the transfers close');
    expect(middleWords(moved(262, 0.7))).toMatch(/^lands 15° before the exhaust closes; 70.% of the wave/);
    expect(middleWords(moved(262, 0.4))).toMatch(/only 40.% of the wave has arrived/);
    expect(middleWords(moved(276.6, 0.52))).toMatch(/^comes as the exhaust closes; 52.%/);
    expect(middleWords(moved(281, 0.3))).toMatch(/^comes 4° after the exhaust has closed/);
    expect(landingSentence(moved(null, null))).toBe('The wave is not to be found.');
    expect(landingSentence(moved(281, 0.3))).toMatch(/^The wave comes too late: its middle comes 4°/);
  });
});

describe('how wide the torque is', () => {
  const torques = (values: readonly number[]): SweepRow[] =>
    values.map((torque_nm, i) => ({ ...at(9000), speed_rpm: 8000 + 500 * i, torque_nm }));

  it('finds the edges straight between the computed speeds', () => {
    // 18 of 20 Nm lies half-way between 17 and 19, and a quarter of the way from 19 to 15.
    expect(bandOf(torques([15, 17, 19, 20, 19, 15]), 'torque_nm')).toEqual({
      from: 8750,
      to: 10_125,
      openBelow: false,
      openAbove: false,
    });
  });

  it('says where the computed speeds end before the torque falls', () => {
    expect(bandOf(torques([19, 20, 15]), 'torque_nm')).toEqual({
      from: 8000,
      to: 8700,
      openBelow: true,
      openAbove: false,
    });
    expect(bandOf([], 'torque_nm')).toBeNull();
  });
});

describe('which way to change the pipe', () => {
  it('takes the length to the middle of the baffle: 700 and 880 mm are its ends in the synthetic outline', () => {
    expect(reflectingLength(syntheticOutline)).toBeCloseTo(0.79, 12);
    expect(reflectingLength(syntheticOutline.filter((part) => part.role !== 'baffle'))).toBeNull();
  });

  it('takes the step of a header by similarity, derived here, times the share that falls to a header', () => {
    expect(headerFor(syntheticOutline, 9000, 8500)).toBeCloseTo(HEADER_SHARE * 0.79 * (9000 / 8500 - 1), 12);
    expect(headerFor(syntheticOutline, 9000, 9500)).toBeLessThan(0);
    expect(headerFor([], 9000, 8500)).toBeNull();
  });

  it('says of a change that was run what it gives, what it costs and on which cells; nothing without one', () => {
    const advice: AdviceReport = {
      advice: [
        {
          for: 'lower',
          changes: [{ name: 'header', of: 'length', from: 0.21, to: 0.24 }],
          set: ['pipe.sections.header.length=240 mm'],
          promises: { torque_nm: 21.83, at_rpm: 9000, lands_from_rpm: 8712, lands_to_rpm: null },
          now: { torque_nm: 20.4, lands: { from: 9240, to: 10_730 } },
          cost: { at_rpm: 10_500, torque_nm: -1.26 },
          basis: 'run',
          cell: 0.01,
          edgeCell: 0.02,
        },
      ],
      none: [{ for: 'target', why: 'best already', tried: null, runs: 12, things: ['header', 'baffle'] }],
    };
    const plain = said(rows, 9000, advice).lines.map(({ label, text, way }) => [
      label,
      text.replace(/\s/g, ' '),
      way,
    ]);
    expect(plain).toContainEqual([
      'For a lower band',
      'Header 30 mm longer (240 mm): 21.8 Nm at 9 000 rpm, now 20.4; the wave lands from about 8 700 rpm, now from about 9 250 to about 10 750 rpm. It costs 1.3 Nm at 10 500 rpm. Computed on cells of 10 mm, the edges on 20 mm.',
      'lower',
    ]);
    expect(plain.find(([label]) => label === 'For the target')?.[1]).toMatch(
      /^None of 12 changes of header and baffle .*at its best already/,
    );
    expect(said(rows, 9000).lines.some(({ way }) => way !== undefined)).toBe(false);
  });

  it('says once what holds for several purposes', () => {
    const none = (purpose: Purpose, why: NoAdvice['why']): NoAdvice => ({
      for: purpose,
      why,
      tried: null,
      runs: 0,
      things: [],
    });
    const linesOf = (...all: readonly NoAdvice[]) =>
      said(rows, 9000, { advice: [], none: all }).lines.filter(({ label }) => /advice|^For/i.test(label));
    expect(linesOf(none('lower', 'no budget'), none('target', 'no budget'))).toEqual([
      {
        label: 'Advice',
        text: expect.stringMatching(/^For a lower band and the target: not computed, for /),
      },
    ]);
    expect(linesOf(none('lower', 'did not settle'), none('higher', 'did not settle'))).toEqual([
      {
        label: 'Advice',
        text: 'For a lower band and a higher band: the changes that were tried did not settle.',
      },
    ]);
    expect(linesOf(none('target', 'did not settle'), none('higher', 'no budget'))).toEqual([
      { label: 'For the target', text: 'The change that was tried did not settle.' },
      { label: 'Further advice', text: expect.stringMatching(/^For a higher band: not computed/) },
    ]);
  });

  it('does not claim a band where there is none', () => {
    const late = rows.map((row) => ({ ...row, plugback_centroid_deg: 300 }));
    expect(said(late, null).headline).toContain('too late at every computed speed');
    const silent = rows.map((row) => ({ ...row, plugback_centroid_deg: null }));
    expect(said(silent, null).headline).toContain('No plug-back');
    expect(said([], 9000).headline).toContain('No plug-back');
  });
});

describe('drafts side by side', () => {
  it('measures the band above 90 % of the best, straight between the computed speeds', () => {
    const torque = [10, 17, 18.5, 20, 19, 17.9, 10];
    const some = torque.map((value, i) => ({
      ...at(9000),
      speed_rpm: 8000 + 250 * i,
      torque_nm: value,
    }));
    // 18 Nm: two thirds of the way from 17 to 18.5, ten elevenths of that from 19 to 17.9.
    expect(widthOf(bandOf(some, 'torque_nm'))).toBeCloseTo(250 * (1 / 3 + 2 + 10 / 11), 9);
    expect(valueAt(curveOf(some, 'torque_nm'), 8125)).toBeCloseTo(13.5, 12);
    expect(valueAt(curveOf(some, 'torque_nm'), 7000)).toBeNull();
  });

  it('averages the torque over the band by trapezes: exact for a straight line', () => {
    const some = rows.map((row) => ({
      ...row,
      torque_nm: row.speed_rpm / 500,
    }));
    expect(
      summarise({ name: 'a', rows: some }, null, { from: 8000, to: 10_000 }).summary.averageTorque,
    ).toBeCloseTo(18, 9);
  });

  it('says what separates them', () => {
    const lower = rows.map((row) => ({
      ...row,
      speed_rpm: row.speed_rpm - 500,
      power_kw: (row.power_kw ?? 0) - 1.1,
    }));
    const summary = (name: string, of: readonly SweepRow[]) =>
      summarise({ name, rows: of }, null, null).summary;
    const [a, b] = [summary('a', rows), summary('b', lower)];
    expect(differenceText(differenceBetween(a, b))).toMatch(
      /holds the plug-back 500.rpm lower.*loses 1\.1.kW of best power/,
    );
    expect(differenceText(differenceBetween(a, a))).toBe('no difference that the model can tell');
  });

  it('says which serves the target, and where each one’s wave lands', () => {
    const stronger = rows.map((row) => ({ ...row, torque_nm: (row.torque_nm ?? 0) + 1 }));
    const drafts = [
      { name: 'a', rows },
      { name: 'b', rows: stronger.map((row) => ({ ...row, plugback_centroid_deg: 240 })) },
    ];
    expect(targetText(targetAnswer(drafts, 8500))).toMatch(
      /^Most torque with b, \d+\.\d.Nm\. The wave lands as wanted with a, comes too early with b\.$/,
    );
  });

  it('says nothing of a target that was not computed, and names the speed beside it that was', () => {
    const drafts = [
      { name: 'a', rows },
      { name: 'b', rows },
    ];
    expect(targetText(targetAnswer(drafts, 3000))).toBe('Not among the computed speeds; name it with --rpm.');
    const beside = (rows[3]?.speed_rpm ?? 0) + 40;
    expect(targetText(targetAnswer(drafts, beside))).toMatch(/^At .*, the nearest computed: Most torque/);
  });
});
