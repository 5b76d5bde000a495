/**
 * Ring: identity. Drawings over several pages of paper: what a page adds to find its neighbour lies on the same points of
 * the pattern on both. Where the pattern lies on each page is read from its outline as it is drawn there.
 */

import { describe, expect, test } from 'vitest';
import { letteringBox } from '../../src/workshop/drawing.ts';
import { partsOf } from '../../src/workshop/parts.ts';
import { patternOf } from '../../src/workshop/pattern.ts';
import { PAPERS, pagesOf, tilesOf } from '../../src/workshop/tiles.ts';
import { bent, none, pipeOf, section } from './made.ts';

type Point = readonly [x: number, y: number];
const [a4] = PAPERS;
const large = patternOf(
  partsOf(pipeOf([section('baffle', 'baffle', 320, 130, 23)]), 0.0008)[0]!,
  none,
  'x',
).drawing;

const groupOf = (svg: string, name: string): string =>
  new RegExp(`<g class="${name}"[^>]*>(.*?)</g>`, 's').exec(svg)?.[1] ?? '';
const cutBegins = (svg: string): Point => {
  const [, x, y] = /d="M([-\d.]+) ([-\d.]+)/.exec(groupOf(svg, 'cut')) ?? [];
  return [Number(x), Number(y)];
};
/** Middles of the crosses of a page, seen from where its outline begins. */
function crossesOf(svg: string): readonly Point[] {
  const [left, top] = cutBegins(svg);
  return [...groupOf(svg, 'page').matchAll(/M([-\d.]+) ([-\d.]+)L([-\d.]+) ([-\d.]+)/g)]
    .map((found) => found.slice(1).map(Number) as [number, number, number, number])
    .filter(([x0, y0, x1, y1]) => y0 === y1 && Math.abs(x1 - x0 - 6) < 1e-6)
    .map(([x0, y0]): Point => [x0 + 3 - left, y0 - top]);
}
const near = ([x, y]: Point, [u, v]: Point): boolean => Math.hypot(x - u, y - v) < 1e-3;
const shared = (one: string, other: string): readonly Point[] =>
  crossesOf(one).filter((point) => crossesOf(other).some((there) => near(point, there)));

describe('a pattern larger than the paper', () => {
  const tiles = tilesOf(large, a4!);
  const place = (svg: string): Point => {
    const [, row, , column] = /row (\d) of (\d), column (\d)/.exec(svg) ?? [];
    return [Number(column), Number(row)];
  };
  const at = (column: number, row: number): string =>
    tiles.find(({ svg }) => near(place(svg), [column, row]))?.svg ?? '';

  test('takes two rows and two columns at least', () => {
    expect(at(2, 2)).not.toBe('');
  });

  test('has crosses on the same points of neighbouring pages, four on each shared strip', () => {
    for (const neighbour of [at(2, 1), at(1, 2)]) {
      const both = shared(at(1, 1), neighbour);
      expect(both.length).toBeGreaterThanOrEqual(4);
      const [xs, ys] = [0, 1].map((k) => both.map((point) => point[k as 0 | 1])) as [number[], number[]];
      const size = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
      // A strip of 10 mm, across the whole of what the page shows.
      expect(Math.min(size(xs), size(ys))).toBeCloseTo(10, 3);
      expect(Math.max(size(xs), size(ys))).toBeGreaterThan(150);
    }
  });

  test('has no crosses in common where pages do not touch but at a corner', () => {
    expect(shared(at(1, 1), at(2, 2)).length).toBeLessThanOrEqual(4);
  });
});

describe('patterns smaller than the paper', () => {
  const drawings = partsOf(bent, 0.0008).map((part) => patternOf(part, none, 'x').drawing);
  const pages = pagesOf(drawings, a4!);

  test('share pages, each drawn once and at its size', () => {
    expect(pages.length).toBeLessThan(drawings.length / 2);
    const cuts = pages.flatMap(({ svg }) => groupOf(svg, 'cut').match(/M/g) ?? []);
    const tiled = drawings.filter((one) => tilesOf(one, a4!).length > 1);
    const over = tiled.reduce((sum, one) => sum + tilesOf(one, a4!).length, 0);
    expect(cuts).toHaveLength(drawings.length - tiled.length + over);
  });

  test('keep inside the page', () => {
    for (const { svg, landscape } of pages.filter(({ svg }) => !svg.includes('row '))) {
      const [width, height] = landscape ? [297, 210] : [210, 297];
      for (const [, x, y] of groupOf(svg, 'cut').matchAll(/[ML]([-\d.]+) ([-\d.]+)/g)) {
        expect(Number(x)).toBeGreaterThanOrEqual(8);
        expect(Number(x)).toBeLessThanOrEqual(width - 8);
        expect(Number(y)).toBeGreaterThanOrEqual(8);
        expect(Number(y)).toBeLessThanOrEqual(height - 20);
      }
    }
  });
});

test('marks end before the words on a piece', () => {
  for (const part of partsOf(bent, 0.0008)) {
    const { marks, lettering } = patternOf(part, none, 'a name').drawing;
    const boxes = lettering.filter(({ text }) => !text.startsWith('W')).map(letteringBox);
    for (const mark of marks) {
      if (mark.kind !== 'line') continue;
      for (const [x, y] of [mark.from, mark.to])
        for (const { left, right, bottom, top } of boxes)
          expect(x > left && x < right && y > bottom && y < top).toBe(false);
    }
  }
});
