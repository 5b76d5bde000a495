import { describe, expect, it } from 'vitest';
import { differenceText, targetText } from '../../plots/pages/compare-words.ts';
import { landingSentence, middleWords } from '../../plots/pages/landing-words.ts';
import { type SweepText, sweepText } from '../../plots/pages/sweep-words.ts';
import { differenceBetween, summarise, targetAnswer } from '../../src/findings/answers/compare.ts';
import {
  headerShare,
  lengthFor500,
  reflectingLength,
  sweepAnswer,
} from '../../src/findings/answers/sweep.ts';
import { bandOf, landingBands, widthOf } from '../../src/findings/band.ts';
import { curveOf, valueAt } from '../../src/findings/curve.ts';
import { landing } from '../../src/findings/landing.ts';
import type { OutlineSection } from '../../src/findings/record.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { syntheticOutline, syntheticSweep } from './synthetic-sweep.ts';

const { rows } = syntheticSweep();
const said = (
  of: readonly SweepRow[],
  outline: readonly OutlineSection[],
  targetSpeed: number | null,
): SweepText => sweepText(sweepAnswer(of, outline, targetSpeed));
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

  it('gives the length by similarity, L · 500/N, derived here, times the share that falls to a header', () => {
    expect(lengthFor500(syntheticOutline, 9000)).toBeCloseTo((headerShare * 0.79 * 500) / 9000, 12);
    expect(lengthFor500([], 9000)).toBeNull();
  });

  it('says lengthen for lower and shorten for higher, with an amount', () => {
    const { headline, lines } = said(rows, syntheticOutline, 7000);
    expect(headline).toMatch(/from 7.500 to 9.000.rpm/);
    const text = (way: string): string => lines.find((line) => line.way === way)?.text ?? '';
    expect(text('lower')).toMatch(/^Lengthen the header by about \d+.mm for each 500.rpm lower/);
    expect(text('higher')).toMatch(/^Shorten the header by about \d+.mm for each 500.rpm higher/);
    const target = lines.find((line) => line.label.startsWith('Target'))?.text ?? '';
    expect(target).toMatch(/comes back too early.*lengthen the header/);
  });

  it('scales a wide step by the inverse of the speed, and says when the header cannot give it', () => {
    const { lines } = said(rows, syntheticOutline, 11_000);
    const target = lines.find((line) => line.label.startsWith('Target'))?.text ?? '';
    const length = lengthFor500(syntheticOutline, 8250) ?? 0;
    const expected = 5 * Math.round((200 * (2750 / 500) * length * 8250) / 11_000);
    expect(target).toContain(`shorten the header by about ${expected}`);
    expect(target).toContain('more than the header can give');
  });

  it('does not claim a band where there is none', () => {
    const late = rows.map((row) => ({ ...row, plugback_centroid_deg: 300 }));
    expect(said(late, syntheticOutline, null).headline).toContain('too late at every computed speed');
    const silent = rows.map((row) => ({ ...row, plugback_centroid_deg: null }));
    expect(said(silent, syntheticOutline, null).headline).toContain('No plug-back');
    expect(said([], syntheticOutline, 9000).headline).toContain('No plug-back');
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
