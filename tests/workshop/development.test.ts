/**
 * Ring: exact solution. Straight cuts: sectors and rectangles against the closed forms of the frustum of a right circular
 * cone (any handbook of mensuration), worked out here from the inside diameters alone.
 */

import { describe, expect, test } from 'vitest';
import type { Section } from '../../src/model/section.ts';
import { cutRows } from '../../src/workshop/cut-list.ts';
import { boxOf, letteringBox, type Stroke } from '../../src/workshop/drawing.ts';
import { partsOf } from '../../src/workshop/parts.ts';
import { patternOf } from '../../src/workshop/pattern.ts';
import { planOf } from '../../src/workshop/plan.ts';
import { job, lengthOf, none, openness, pipeOf, section, shoelace } from './made.ts';

const cones: readonly (readonly [string, Section])[] = [
  ['header, nearly a cylinder', section('header', 'header', 280, 38, 41)],
  ['diffuser', section('diffuser', 'diffuser', 200, 41, 66)],
  ['baffle, narrowing', section('baffle', 'baffle', 210, 102, 23)],
  ['blunt cone, sector above 180 degrees', section('blunt', 'baffle', 50, 100, 20)],
];

const partOf = (one: Section, thickness: number) => partsOf(pipeOf([one]), thickness)[0]!;

describe.each(cones)('%s', (_, one) => {
  const [d1, d2] = one.diameter.map((d) => 1000 * d) as [number, number];
  const length = 1000 * one.length;
  const t = 0.8;
  const slant = Math.hypot(length, (d2 - d1) / 2);
  const sin = Math.abs(d2 - d1) / 2 / slant;
  // Radii of the middle of the sheet: half a thickness outwards, square to the slant.
  const [r1, r2] = [d1, d2].map((d) => d / 2 + (t / 2) * (slant / length)) as [number, number];
  const [small, large] = [Math.min(r1, r2), Math.max(r1, r2)];

  test('has radii, sweep and chords of the closed form to 1e-9', () => {
    const [row] = cutRows(planOf(pipeOf([one]), 'x', job()));
    const relative = (value: number | null | undefined, exact: number): void =>
      expect(Math.abs((value ?? 0) / exact - 1)).toBeLessThan(1e-9);
    relative(row?.innerRadiusMm, small / sin);
    relative(row?.outerRadiusMm, large / sin);
    relative(row?.sweepDeg, 360 * sin);
    relative(row?.slantLeastMm, slant);
    relative(row?.slantMostMm, slant);
    const half = Math.min(Math.PI * sin, Math.PI / 2);
    relative(row?.innerChordMm, 2 * (small / sin) * Math.sin(half));
    relative(row?.outerChordMm, 2 * (large / sin) * Math.sin(half));
    relative(row?.surfaceCm2, (Math.PI * (r1 + r2) * slant) / 100);
  });

  test('is drawn with those radii and that sweep, arcs as arcs', () => {
    const { drawing, piece } = patternOf(partOf(one, t / 1000), none, 'x');
    const arcs = drawing.outlines[0]!.filter((stroke) => stroke.kind === 'arc');
    expect(arcs).toHaveLength(2);
    expect(arcs[0]?.radius).toBeCloseTo(large / sin, 8);
    expect(arcs[1]?.radius).toBeCloseTo(small / sin, 8);
    for (const arc of arcs) expect(Math.abs(arc.sweepDeg)).toBeCloseTo(360 * sin, 9);
    // Width of a sector of less than half a turn is its outer chord.
    if (sin < 0.5) expect(piece.width).toBeCloseTo((2 * large * Math.sin(Math.PI * sin)) / sin, 8);
    expect(Math.abs(shoelace(drawing.outlines[0]!) / (Math.PI * (r1 + r2) * slant) - 1)).toBeLessThan(1e-6);
    expect(lengthOf(arcs[0]!) / (2 * Math.PI * large)).toBeCloseTo(1, 7);
  });

  test('closes, with and without allowances; a seam adds its strip', () => {
    const outlines = [none, { ...none, seam: 0.005 }].map(
      (allowances) => patternOf(partOf(one, t / 1000), allowances, 'x').drawing.outlines[0]!,
    );
    // Round-off of places some metres from the centre of the sector.
    for (const outline of outlines) expect(openness(outline)).toBeLessThan(1e-9);
    const [bare, wide] = outlines.map((outline) => shoelace(outline)) as [number, number];
    expect((wide - bare) / (5 * slant)).toBeCloseTo(1, 5);
  });
});

test('a cylinder is a rectangle of its middle circumference', () => {
  const belly = section('belly', 'belly', 90, 104, 104);
  const { piece, drawing } = patternOf(partOf(belly, 0.0008), { ...none, seam: 0.006 }, 'x');
  expect(piece.width).toBeCloseTo(Math.PI * 104.8 + 6, 9);
  expect(piece.height).toBeCloseTo(90, 9);
  expect(drawing.folds).toHaveLength(1);
});

test('cone and cylinder agree where one becomes the other', () => {
  const areas = [30.011, 30].map((right) =>
    shoelace(
      patternOf(partOf(section('x', 'header', 250, 30, right), 0.0008), none, 'x').drawing.outlines[0]!,
    ),
  ) as [number, number];
  expect(Math.abs(areas[0] / areas[1] - 1)).toBeLessThan(0.011 / 60 + 1e-6);
});

test('a worked cone: 60 to 20 mm inside over 34.641 mm is 30 degrees, a half-circle sector', () => {
  // tan 30 deg = 20 / 34.641; sin 30 deg = 1/2, so the sweep is 180 degrees and each radius twice its circle's.
  const one = section('x', 'baffle', 20 * Math.sqrt(3), 60, 20);
  const arcs = patternOf(partOf(one, 0), none, 'x').drawing.outlines[0]!.filter(({ kind }) => kind === 'arc');
  expect(arcs.map((arc) => (arc as Stroke & { kind: 'arc' }).radius)).toEqual([
    expect.closeTo(60, 9),
    expect.closeTo(20, 9),
  ]);
});

test('welds move the edges: shrinkage out, a root gap in, half at each edge; the open end stays', () => {
  const two = pipeOf([section('belly', 'belly', 90, 100, 100), section('stinger', 'stinger', 60, 100, 100)]);
  const [first, last] = partsOf(two, 0).map(
    (part) => patternOf(part, { ...none, joint: 0.007, shrinkage: 0.0006, rootGap: 0.0002 }, 'x').piece,
  ) as [{ width: number; height: number }, { width: number; height: number }];
  expect(first.height).toBeCloseTo(90 + 2 * 0.2 + 7, 9);
  expect(first.width).toBeCloseTo(100 * Math.PI + 0.4, 9);
  expect(last.height).toBeCloseTo(60 + 0.2, 9);
});

test('the box around an arc reaches the crown, not only the ends', () => {
  const arc: Stroke = { kind: 'arc', centre: [1, 2], radius: 10, startDeg: 45, sweepDeg: 270 };
  const box = boxOf([arc]);
  expect(box.top).toBeCloseTo(12, 12);
  expect(box.left).toBeCloseTo(-9, 12);
  expect(box.bottom).toBeCloseTo(-8, 12);
  expect(box.right).toBeCloseTo(1 + 10 * Math.SQRT1_2, 12);
});

test('a seam that would lie on the other edge is refused', () => {
  const steep = section('steep', 'baffle', 10.1, 22, 2);
  expect(() => patternOf(partOf(steep, 0), { ...none, seam: 0.05 }, 'x')).toThrow('--seam');
});

test('lettering stays on the piece', () => {
  for (const [, one] of cones.slice(0, 3)) {
    const { drawing } = patternOf(partOf(one, 0.0008), none, 'a case with a rather long name');
    const piece = boxOf(drawing.outlines[0]!);
    for (const lettering of drawing.lettering) {
      const box = letteringBox(lettering);
      expect(box.left).toBeGreaterThan(piece.left);
      expect(box.right).toBeLessThan(piece.right);
      expect(box.bottom).toBeGreaterThan(piece.bottom);
      expect(box.top).toBeLessThan(piece.top);
    }
  }
});
