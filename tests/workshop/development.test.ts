/** Developments of cones and cylinders against closed forms of the frustum and against numeric integration. */

import { describe, expect, test } from 'vitest';
import type { Section } from '../../src/model/section.ts';
import { developmentOf } from '../../src/workshop/development.ts';
import { beginOf, boxOf, endOf, type Stroke } from '../../src/workshop/drawing.ts';
import { patternOf } from '../../src/workshop/pattern.ts';

function cone(length: number, left: number, right: number, name = 'cone'): Section {
  return { name, role: 'diffuser', length, diameter: [left, right], step: false };
}

const cones: readonly (readonly [string, Section])[] = [
  ['header, nearly a cylinder', cone(0.28, 0.038, 0.041)],
  ['diffuser', cone(0.2, 0.041, 0.066)],
  ['baffle, narrowing', cone(0.21, 0.102, 0.023)],
  ['blunt cone, sector above 180 degrees', cone(0.02, 0.1, 0.02)],
];

/** Length of a stroke and its share of the area by Green's theorem, the arc cut into many straight pieces [mm, mm2]. */
function measured(stroke: Stroke): { length: number; area: number } {
  const pieces = stroke.kind === 'line' ? 1 : 20_000;
  const place = (share: number): readonly [number, number] =>
    stroke.kind === 'line'
      ? share === 0
        ? stroke.from
        : stroke.to
      : endOf({ ...stroke, sweepDeg: share * stroke.sweepDeg });
  let [length, area] = [0, 0];
  let [x0, y0] = place(0);
  for (let piece = 1; piece <= pieces; piece += 1) {
    const [x, y] = place(piece / pieces);
    length += Math.hypot(x - x0, y - y0);
    area += (x0 * y - x * y0) / 2;
    [x0, y0] = [x, y];
  }
  return { length, area };
}

describe.each(cones)('%s', (_, section) => {
  const [d1, d2] = section.diameter;

  test('of thin sheet has the lateral surface and the slant height of the frustum', () => {
    const [r1, r2] = [d1 / 2, d2 / 2];
    const slant = Math.hypot(section.length, r2 - r1);
    const development = developmentOf(section, 0);
    // Frustum of a right circular cone, lateral surface pi (r1 + r2) s: any handbook of mensuration.
    expect(development.area).toBeCloseTo(Math.PI * (r1 + r2) * slant, 14);
    expect(development.slant).toBeCloseTo(slant, 14);
  });

  test('area equals the surface of revolution integrated along the axis', () => {
    const thickness = 0.001;
    const slope = (d2 - d1) / 2 / section.length;
    const lengthening = Math.hypot(1, slope);
    const steps = 1000;
    let area = 0;
    for (let step = 0; step < steps; step += 1) {
      const x = ((step + 0.5) / steps) * section.length;
      // Radius of the middle surface: half a thickness outwards, square to the slant.
      const radius = d1 / 2 + slope * x + (thickness / 2) * lengthening;
      area += 2 * Math.PI * radius * lengthening * (section.length / steps);
    }
    expect(developmentOf(section, thickness).area / area).toBeCloseTo(1, 12);
  });

  test('drawn edges are the circumferences, the drawn area is the surface', () => {
    const thickness = 0.001;
    const { drawing, development } = patternOf(section, { thickness, seam: 0 }, 'x');
    const parts = drawing.outline.map(measured);
    const arcs = parts.filter((_, index) => drawing.outline[index]?.kind === 'arc');
    const toMiddle = thickness * Math.hypot(1, (d2 - d1) / 2 / section.length);
    const around = [d1, d2].map((d) => 1000 * Math.PI * (d + toMiddle)).sort((a, b) => b - a);
    // Twenty thousand chords fall short of an arc by sweep^2 / 24 / 20000^2, at most 3e-9.
    expect((arcs[0]?.length ?? 0) / (around[0] as number)).toBeCloseTo(1, 8);
    expect((arcs[1]?.length ?? 0) / (around[1] as number)).toBeCloseTo(1, 8);
    const area = parts.reduce((sum, part) => sum + part.area, 0);
    expect(area / (development.area * 1e6)).toBeCloseTo(1, 7);
  });

  test('the outline closes, with and without a seam, and the seam adds its strip', () => {
    const areas = [0, 0.005].map((seam) => {
      const { outline } = patternOf(section, { thickness: 0.0008, seam }, 'x').drawing;
      outline.forEach((stroke, index) => {
        const [x, y] = endOf(stroke);
        const [nextX, nextY] = beginOf(outline[(index + 1) % outline.length] as Stroke);
        // Round-off of places some metres from the centre of the sector.
        expect(Math.hypot(nextX - x, nextY - y)).toBeLessThan(1e-9);
      });
      return outline.reduce((sum, stroke) => sum + measured(stroke).area, 0);
    });
    const strip = 5 * 1000 * developmentOf(section, 0.0008).slant;
    expect(((areas[1] as number) - (areas[0] as number)) / strip).toBeCloseTo(1, 6);
  });
});

test('a cylinder is a rectangle of its middle circumference', () => {
  const section: Section = { ...cone(0.09, 0.104, 0.104), role: 'belly' };
  expect(developmentOf(section, 0.0008)).toEqual({
    kind: 'rectangle',
    slant: 0.09,
    width: Math.PI * (0.104 + 0.0008),
    area: Math.PI * (0.104 + 0.0008) * 0.09,
  });
  const { piece } = patternOf(section, { thickness: 0.0008, seam: 0.006 }, 'x');
  expect(piece.width).toBeCloseTo(1000 * Math.PI * 0.1048 + 6, 9);
  expect(piece.height).toBe(90);
});

test('cone and cylinder agree where one becomes the other', () => {
  const nearly = developmentOf(cone(0.25, 0.03, 0.03 + 1.01e-5), 0.0008);
  const cylinder = developmentOf(cone(0.25, 0.03, 0.03), 0.0008);
  expect(nearly.kind).toBe('sector');
  expect(cylinder.kind).toBe('rectangle');
  expect(Math.abs(nearly.area / cylinder.area - 1)).toBeLessThan(1.01e-5 / 0.06 + 1e-6);
});

test('a worked cone: 60 to 20 mm inside over 34.641 mm is 30 degrees, a half-circle sector', () => {
  // tan 30 deg = 20 / 34.641; sin 30 deg = 1/2, so the sweep is 180 degrees and each radius twice its circle's.
  const development = developmentOf(cone(0.02 * Math.sqrt(3), 0.06, 0.02), 0);
  expect(development).toMatchObject({ kind: 'sector' });
  if (development.kind !== 'sector') return;
  expect((development.sweep * 180) / Math.PI).toBeCloseTo(180, 10);
  expect(development.innerRadius).toBeCloseTo(0.02, 12);
  expect(development.outerRadius).toBeCloseTo(0.06, 12);
  expect(development.slant).toBeCloseTo(0.04, 12);
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
  const blunt = cone(0.002, 0.1, 0.02, 'blunt');
  expect(() => patternOf(blunt, { thickness: 0, seam: 0.02 }, 'x')).toThrow(
    expect.objectContaining({ exitCode: 2 }),
  );
});

test('lettering stays on the piece', () => {
  for (const [, section] of cones.slice(0, 3)) {
    const { drawing } = patternOf(
      section,
      { thickness: 0.0008, seam: 0 },
      '01 header (a case with a rather long name)',
    );
    const box = boxOf(drawing.outline);
    for (const { text, at, height } of drawing.lettering.slice(0, 3)) {
      expect(at[0] - 0.375 * height * text.length).toBeGreaterThan(box.left);
      expect(at[0] + 0.375 * height * text.length).toBeLessThan(box.right);
    }
  }
});
