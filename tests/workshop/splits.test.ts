/** Ring: conservation. Blanks too large for the sheet: panels round the pipe, then welds more along it; nothing is lost. */

import { describe, expect, test } from 'vitest';
import { areaOf } from '../../src/workshop/nest.ts';
import { builtVolume, type Plan, planOf } from '../../src/workshop/plan.ts';
import { bent, job, none, pipeOf, section } from './made.ts';

const pipe = pipeOf([
  section('diffuser', 'diffuser', 300, 40, 110),
  section('belly', 'belly', 120, 110, 110),
  section('baffle', 'baffle', 260, 110, 24),
]);
const on = (width: number, height: number, of = pipe): Plan =>
  planOf(of, 'x', job({ sheet: { width, height } }));
const area = ({ patterns }: Plan): number =>
  patterns.reduce((sum, { drawing }) => sum + areaOf(drawing.outlines[0]!), 0);

const whole = on(2000, 1000);
const panelled = on(400, 250);
const welded = on(300, 110);

test('fits whole where the sheet has room', () => {
  expect(whole.notes).toEqual([]);
  expect(whole.patterns).toHaveLength(3);
});

describe('panels', () => {
  test('are said, and lie within the sheet', () => {
    expect(panelled.parts).toHaveLength(3);
    expect(panelled.notes.join('\n')).toMatch(/"diffuser" is larger .* split into \d panels .* a seam each/);
    for (const { piece } of panelled.patterns) {
      const [short, long] = [piece.width, piece.height].sort((a, b) => a - b) as [number, number];
      expect(short).toBeLessThanOrEqual(240);
      expect(long).toBeLessThanOrEqual(390);
    }
  });

  test('have together the area of the whole blank', () => {
    expect(area(panelled) / area(whole)).toBeCloseTo(1, 6);
  });

  test('are numbered round the pipe without a gap', () => {
    for (const part of panelled.parts) {
      const panels = panelled.patterns.filter((one) => one.part === part).map(({ panel }) => panel);
      expect(panels).toEqual(panels.map((_, i) => [i + 1, panels.length]));
    }
    expect(panelled.patterns.length).toBeGreaterThan(3);
  });

  test('carry a strip for the seam each', () => {
    const sheet = { width: 400, height: 250 };
    const seamed = planOf(pipe, 'x', job({ sheet, allowances: { ...none, seam: 0.005 } }));
    const slants = seamed.patterns.reduce((sum, { part: { middle } }) => {
      return sum + 1000 * middle.length * Math.hypot(1, middle.slope);
    }, 0);
    expect((area(seamed) - area(panelled)) / (5 * slants)).toBeCloseTo(1, 4);
  });
});

describe('extra welds', () => {
  test('are said with their places, and each makes a part more', () => {
    const [, places = ''] = /extra welds round the pipe at (.*) mm/.exec(welded.notes.join('\n')) ?? [];
    expect(welded.parts).toHaveLength(3 + places.split(', ').length);
    for (const place of places.split(', '))
      expect(welded.parts.some(({ at }) => Math.abs(1000 * at - Number(place)) < 0.51)).toBe(true);
  });

  test('are numbered on from the flange', () => {
    expect(welded.parts.map(({ welds }) => welds[0])).toEqual(welded.parts.map((_, i) => i + 1));
    expect(welded.parts.at(-1)?.welds[1]).toBeNull();
  });

  test('change neither length nor volume nor sheet', () => {
    const length = ({ parts }: Plan): number => parts.reduce((sum, part) => sum + part.length, 0);
    expect(length(welded)).toBeCloseTo(length(whole), 12);
    expect(builtVolume(welded) / builtVolume(whole)).toBeCloseTo(1, 12);
    expect(area(welded) / area(whole)).toBeCloseTo(1, 6);
  });

  test('keep clear of mitres', () => {
    const { parts } = on(260, 90, bent);
    const mitres = parts.filter(({ middle }) => middle.start !== null);
    expect(mitres).toHaveLength(16);
  });
});
