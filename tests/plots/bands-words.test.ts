/** How sure a sweep is, in words, of numbers that are known. Ring: identity. */

import { describe, expect, test } from 'vitest';
import { driverDots, strongestInputs } from '../../plots/figures/driver-dots.ts';
import { memberShades } from '../../plots/figures/member-shades.ts';
import { outputCurves } from '../../plots/figures/output-curves.ts';
import { measureText, sureHeadline, sureText, troublesText } from '../../plots/pages/bands-words.ts';
import { chancesText } from '../../plots/pages/chances-words.ts';
import { lookFor } from '../../plots/theme/look.ts';
import type { BandsAnswer } from '../../src/findings/answers/bands.ts';
import { sweepAnswer } from '../../src/findings/answers/sweep.ts';
import { columnBand } from '../../src/findings/member-bands.ts';
import { syntheticChances, syntheticSure } from './synthetic-members.ts';
import { syntheticSweep } from './synthetic-sweep.ts';

const { rows } = syntheticSweep({ step: 250 });
const sure = syntheticSure(rows, 9500);
const plain = (text: string): string => text.replaceAll('\u202f', ' ');

const figure = (name: string, p05: number, p50: number, p95: number, open = 0) => ({
  name,
  p05,
  p25: p50,
  p50,
  p75: p50,
  p95,
  count: 64,
  open,
});
const known = (open = 0): BandsAnswer =>
  ({
    ...sure,
    bands: {
      ...sure.bands,
      members: 64,
      figures: [
        figure('works_from_rpm', 9571, 9748, 9931),
        figure('works_to_rpm', 10_780, 11_003, 11_220, open),
        figure('best_torque_nm', 19, 20.04, 21.2),
        figure('best_power_kw', 21, 22, 23),
      ],
    },
  }) as BandsAnswer;

describe('the headline', () => {
  test('has the edges as sure as they are', () => {
    expect(plain(sureHeadline(known()) ?? '')).toBe(
      'The wave comes back when the port wants it from 9 750 ± 180 to 11 000 ± 220 rpm, with at least 90 % of the best torque.',
    );
  });

  test('is that of the sweep where less than half of the members have such a band', () => {
    const few = known();
    const figures = few.bands.figures.map((one) => ({ ...one, count: 31 }));
    expect(sureHeadline({ ...few, bands: { ...few.bands, figures } })).toBeNull();
  });
});

describe('the sentences', () => {
  test('say what ± is, and where bands go on beyond the computed speeds', () => {
    const text = plain(sureText(known(7), sweepAnswer(rows, 9500)));
    expect(text).toContain('± holds nine in ten of 64 members');
    expect(text).toContain('Best torque 20.0 ± 1.1 Nm, best power 22.0 ± 1.0 kW.');
    expect(text).toContain('The computed speeds end before the band does above in 7 of the members');
    expect(plain(sureText(known(), sweepAnswer(rows, 9500)))).not.toContain('The computed speeds end');
  });

  test('count what could not be used', () => {
    const none = { lost: 0, incomplete: 0, failedSpeeds: 0, unsettledSpeeds: 0, reasons: [] };
    expect(troublesText(none)).toBe('');
    expect(troublesText({ ...none, lost: 1, incomplete: 3, unsettledSpeeds: 1 })).toBe(
      '3 members lack speeds: 1 member could not be used at all, 1 speed did not settle. These are left out of the percentiles, which stand on fewer members there.',
    );
  });

  test('name what to measure first: √(1 - 0.2) and √(1 - 0.5) of the edges, √(1 - 0.3) of torque, √(1 - 0.5) of both', () => {
    expect(plain(measureText(sure))).toBe(
      'Measure first: pipe, wall, given, flange; known exactly, the ± of the lower edge would be 11 % narrower, that of the upper edge 29 %. ' +
        'Torque at 9 500 rpm hangs most on pipe, wall, given, flange, 30 % ± 6 % of its variance: known exactly, its band would be 16 % narrower. ' +
        'With pipe, wall, given, flange; combustion, duration all known it would be 29 % narrower.',
    );
    expect(measureText({ ...sure, drivers: [] })).toContain('no single input stands out');
  });

  test('tell in how many members a draft beats the first', () => {
    const [chances] = syntheticChances([
      { name: 'A', rows },
      { name: 'B', rows },
    ]);
    expect(plain(chancesText(chances!))).toBe(
      'With the same members B beats A by torque at 9 500 rpm in 40 of 40, by +0.10 ± 0.00 Nm; ' +
        'mean torque from 8 000 to 10 500 rpm in 40 of 40, by +0.10 ± 0.00 Nm; best power in 40 of 40, by +0.10 ± 0.00 kW; ' +
        'best torque in 40 of 40, by +0.10 ± 0.00 Nm.',
    );
  });
});

describe('the figures', () => {
  const look = lookFor(700, false);
  const bands = columnBand(sure.bands, 'torque_nm');

  test('shade from the 5th to the 95th percentile and the middle half, under the curves', () => {
    const shades = memberShades(bands, '#123456') as { y: readonly number[]; fill?: string }[];
    expect(shades.map(({ fill }) => fill)).toEqual([undefined, 'tonexty', undefined, 'tonexty', undefined]);
    expect(shades[1]?.y).toEqual(bands.map(({ p95 }) => p95));
    expect(shades[2]?.y).toEqual(bands.map(({ p25 }) => p25));
    const { data } = outputCurves(rows, look, bands);
    expect(data.slice(0, 5).every(({ showlegend }) => showlegend === false)).toBe(true);
    expect(outputCurves(rows, look).data).toHaveLength(data.length - 5);
  });

  test('lay a dot for each answer beside the strongest inputs', () => {
    expect(strongestInputs(sure.drivers)[0]).toBe('pipe.wall.given.flange');
    const { data } = driverDots(sure.drivers, (path) => path, look);
    expect(data).toHaveLength(4);
    expect((data[2] as { x: readonly number[] }).x[0]).toBe(50);
  });
});
