/**
 * Ring: exact solution. Flat halves by the half circumference: rectangles, trapezia and sectors of rings worked out here, and
 * areas by the theorem of Pappus and Guldin: a width square to a curve sweeps it times the length of the curve.
 */

import { describe, expect, test } from 'vitest';
import type { Bend } from '../../src/model/pipe.ts';
import type { Section } from '../../src/model/section.ts';
import { boxOf } from '../../src/workshop/drawing.ts';
import { hydroformHalf } from '../../src/workshop/hydroform.ts';
import { bend, lengthOf, openness, pipeOf, section, shoelace } from './made.ts';

const half = (sections: readonly Section[], bends: readonly Bend[] = [], edge = 0) =>
  hydroformHalf(pipeOf(sections, bends), 0.0008, edge, 'x');
const tube = section('header', 'header', 400, 40, 40);
/** Half the circumference of the middle of the sheet [mm]. */
const wide = (inside: number): number => (Math.PI * (inside + 0.8)) / 2;

test('a tube is a rectangle, two of which have the tube’s surface', () => {
  const [outline] = half([tube]).outlines;
  const { left, right, bottom, top } = boxOf(outline!);
  expect(right - left).toBeCloseTo(400, 9);
  expect(top - bottom).toBeCloseTo(wide(40), 9);
  expect((2 * shoelace(outline!)) / (Math.PI * 40.8 * 400)).toBeCloseTo(1, 12);
});

test('a cone is a trapezium', () => {
  const { outlines } = half([section('baffle', 'baffle', 200, 100, 24)]);
  const [left, end, right, begin] = outlines[0]!;
  expect(lengthOf(begin!)).toBeCloseTo(wide(100), 9);
  expect(lengthOf(end!)).toBeCloseTo(wide(24), 9);
  const slanted = Math.hypot(200, (wide(100) - wide(24)) / 2);
  for (const side of [left!, right!]) expect(lengthOf(side)).toBeCloseTo(slanted, 9);
  expect(openness(outlines[0]!)).toBeLessThan(1e-9);
});

test('a bend lies flat at its radius: its edges are arcs half a width inside and outside', () => {
  const [outline] = half([tube], [bend(100, 90, 120)]).outlines;
  const straight = 400 - 120 * (Math.PI / 2);
  const sides = [outline![0]!, outline![2]!].map(lengthOf).sort((a, b) => a - b);
  for (const [k, side] of [-1, 1].entries()) {
    const exact = straight + (Math.PI / 2) * (120 + (side * wide(40)) / 2);
    // Chords of a degree are shorter than their arcs by a hundred-thousandth.
    expect(Math.abs(sides[k]! / exact - 1)).toBeLessThan(2e-5);
  }
  expect(Math.abs(shoelace(outline!) / (wide(40) * 400) - 1)).toBeLessThan(1e-4);
});

test('the ends of a right angle stand square to one another', () => {
  const [outline] = half([tube], [bend(100, 90, 120)]).outlines;
  const [end, begin] = [outline![1]!, outline![3]!];
  const direction = (stroke: typeof end): readonly [number, number] =>
    stroke.kind === 'line' ? [stroke.to[0] - stroke.from[0], stroke.to[1] - stroke.from[1]] : [0, 0];
  const [[a, b], [c, d]] = [direction(end), direction(begin)];
  expect(Math.abs(a * c + b * d)).toBeLessThan(1e-9 * wide(40) ** 2);
  expect(Math.hypot(a, b)).toBeCloseTo(wide(40), 9);
});

test('bends to both sides of one plane bring the centreline back to its direction', () => {
  const { marks } = half([tube], [bend(50, 60, 100), bend(250, 60, 100, 180)]);
  const [centre] = marks;
  if (centre?.kind !== 'path') throw new Error('no centreline');
  const [[x0, y0], [x1, y1]] = centre.places.slice(-2) as [[number, number], [number, number]];
  expect(y1 - y0).toBeCloseTo(0, 6);
  expect(x1 - x0).toBeGreaterThan(0);
});

test('the edge for the weld lies outside the line of the weld', () => {
  const { outlines, folds } = half([tube], [], 0.008);
  const [cut, weld] = [boxOf(outlines[0]!), boxOf(folds)];
  expect(cut.top - weld.top).toBeCloseTo(8, 9);
  expect(weld.bottom - cut.bottom).toBeCloseTo(8, 9);
});

describe('refused', () => {
  test('a bend out of the plane', () => {
    expect(() => half([tube], [bend(20, 40, 100), bend(200, 40, 100, 90)])).toThrow(
      /Bend 2 leaves the plane/,
    );
  });
  test('a bend tighter than half the flat width', () => {
    // Half of it is 32.0 mm.
    expect(() => half([tube], [bend(100, 60, 32)])).toThrow(/too tight for flat halves: they are 64 mm wide/);
    expect(() => half([tube], [bend(100, 60, 33)])).not.toThrow();
  });
});

test('is marked as an approximation that shrinks, and to be formed with water', () => {
  const words = half([tube])
    .lettering.map(({ text }) => text)
    .join('\n');
  expect(words).toMatch(/approximate: shrinks in forming/);
  expect(words).toMatch(/water only, never air/);
});
