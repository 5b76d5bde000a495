/**
 * Ring: exact solution and conservation. Bends: mitred pieces against the surface integrated in space, their edges against
 * one another, and the welded solid against the pipe that is simulated. The surface in space is found here by cutting each
 * cone with the plane that halves the angle at a joint, by bisection along its generators; nothing of it is developed.
 */

import { describe, expect, test } from 'vitest';
import { coneVolume } from '../../src/pipe/cone.ts';
import type { Vector } from '../../src/workshop/centreline.ts';
import { edgeAt, edgeLength, radiusAt, TURN } from '../../src/workshop/mitred-cone.ts';
import { type Part, partsOf } from '../../src/workshop/parts.ts';
import { patternOf } from '../../src/workshop/pattern.ts';
import { builtVolume } from '../../src/workshop/plan.ts';
import { bend, bent, lengthOf, none, openness, pipeOf, section, shoelace } from './made.ts';

const thickness = 0.0008;
const parts = partsOf(bent, thickness);
const mitred = parts.filter(({ middle }) => middle.start !== null || middle.end !== null);

/** A point of the middle of the sheet in space [m]. */
function inSpace({ frame, middle }: Part, phi: number, z: number): Vector {
  const r = radiusAt(middle, z);
  const [c, s] = [r * Math.cos(phi), r * Math.sin(phi)];
  const at = (i: 0 | 1 | 2): number =>
    frame.origin[i] + z * frame.along[i] + c * frame.up[i] + s * frame.right[i];
  return [at(0), at(1), at(2)];
}

const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const distance = (a: Vector, b: Vector): number => Math.hypot(...minus(a, b));

const ring = (part: Part, end: 'start' | 'end', count: number): readonly Vector[] =>
  Array.from({ length: count }, (_, i) => {
    const phi = (i / count) * TURN;
    return inSpace(part, phi, edgeAt(part.middle, end, phi));
  });

test('the demo of bends has mitres on a header, a diffuser and a stinger', () => {
  expect(new Set(mitred.map((part) => part.section.name))).toEqual(
    new Set(['header', 'diffuser', 'stinger']),
  );
  expect(mitred.length).toBeGreaterThan(15);
});

describe('a blank', () => {
  test.each(mitred.map((part) => [part.name, part] as const))(
    'of %s has the area of its surface',
    (_, part) => {
      const { outlines } = patternOf(part, none, 'x').drawing;
      expect(openness(outlines[0]!)).toBeLessThan(1e-9);
      // Quadrilaterals in space; their area converges with the square of their size, so two sizes give the limit.
      const surface = (n: number): number => {
        let sum = 0;
        for (let i = 0; i < n; i += 1) {
          const [a, b] = [i, i + 1].map((k) => (k / n) * TURN) as [number, number];
          const corner = (phi: number, end: 'start' | 'end') =>
            inSpace(part, phi, edgeAt(part.middle, end, phi));
          const [p, q, r, s] = [corner(a, 'start'), corner(b, 'start'), corner(b, 'end'), corner(a, 'end')];
          sum += Math.hypot(...cross(minus(r, p), minus(s, q))) / 2;
        }
        return sum * 1e6;
      };
      const limit = (4 * surface(1200) - surface(600)) / 3;
      expect(Math.abs(shoelace(outlines[0]!) / limit - 1)).toBeLessThan(1e-6);
    },
  );
});

describe('two parts that meet', () => {
  test('have drawn edges of equal length to 0.01 mm', () => {
    const edges = parts.map((part) => {
      const { drawing } = patternOf(part, none, 'x');
      const [top, , bottom] = drawing.outlines[0]!;
      const [start, end] = part.middle.slope < 0 ? [top!, bottom!] : [bottom!, top!];
      return { start: lengthOf(start), end: lengthOf(end), mitre: part.middle.end !== null };
    });
    const joints = edges.slice(0, -1).map((edge, i) => [edge, edges[i + 1]!] as const);
    const differences = joints
      .filter(([edge]) => edge.mitre)
      .map(([edge, next]) => Math.abs(edge.end - next.start));
    expect(differences).toHaveLength(16);
    expect(Math.max(...differences)).toBeLessThan(0.01);
    // Where cones of different angles meet square, half a sheet's thickness leans differently on the two.
    for (const [edge, next] of joints) expect(Math.abs(edge.end - next.start)).toBeLessThan(0.15);
  });

  test('share the curve of the joint in space', () => {
    const joints = parts
      .slice(0, -1)
      .flatMap((part, i) => (part.middle.end === null ? [] : [[part, parts[i + 1]!] as const]));
    for (const [before, after] of joints) {
      const curve = ring(after, 'start', 2000);
      for (const point of ring(before, 'end', 16)) {
        // Points 0.07 mm apart: half of that is the farthest from the nearest.
        expect(Math.min(...curve.map((other) => distance(point, other)))).toBeLessThan(8e-5);
      }
      // All of it in the plane square to the line that halves the angle of the two axes.
      const normal = before.frame.along.map((value, k) => value + after.frame.along[k]!) as unknown as Vector;
      const heights = curve.map((point) => dot(minus(point, curve[0]!), normal));
      expect(Math.max(...heights.map(Math.abs))).toBeLessThan(1e-12);
    }
  });

  test('have their seams a quarter turn apart or more', () => {
    const apart = parts.slice(1).map((part, i) => Math.acos(Math.cos(part.seam - parts[i]!.seam)));
    expect(Math.min(...apart)).toBeGreaterThan(Math.PI / 2 - 1e-9);
  });

  test('have an edge length that the integral of the edge gives', () => {
    const part = mitred[1]!;
    const points = ring(part, 'end', 4000);
    const around = points.reduce((sum, point, i) => sum + distance(point, points.at(i - 1)!), 0);
    expect(edgeLength(part.middle, 'end') / around).toBeCloseTo(1, 6);
  });
});

describe('the welded pipe', () => {
  test('has the centreline of the simulated one', () => {
    const total = bent.sections.reduce((sum, { length }) => sum + length, 0);
    const corners = [...parts.map(({ frame }) => frame.origin), endOfAxis(parts.at(-1)!)];
    const built = corners.slice(1).reduce((sum, corner, i) => sum + distance(corner, corners[i]!), 0);
    expect(built / total).toBeCloseTo(1, 12);
  });

  test('has the volume of the simulated one: by formula, and by its walls in space', () => {
    const simulated = bent.sections.reduce((sum, one) => sum + coneVolume(one), 0);
    // 0.1 % is asked for; mitres of cones that envelop common spheres keep it exactly.
    expect(Math.abs(builtVolume({ parts }) / simulated - 1)).toBeLessThan(1e-9);
    // Divergence theorem over triangles, thin sheet so that inside and middle are one.
    const thin = partsOf(bent, 0);
    const triangle = (a: Vector, b: Vector, c: Vector): number => dot(a, cross(b, c)) / 6;
    const volume = (n: number): number =>
      thin.reduce((sum, part) => {
        const [low, high] = [ring(part, 'start', n), ring(part, 'end', n)];
        const walls = low.map((_, i) => {
          const [p, q, r, s] = [low.at(i - 1)!, low[i]!, high[i]!, high.at(i - 1)!];
          return triangle(p, q, r) + triangle(p, r, s);
        });
        return sum + walls.reduce((all, one) => all + one, 0) + lid(high) - lid(low);
      }, 0);
    const lid = (points: readonly Vector[]): number =>
      points.reduce((sum, point, i) => sum + triangle(points[0]!, points.at(i - 1)!, point), 0);
    const limit = (4 * Math.abs(volume(800)) - Math.abs(volume(400))) / 3;
    expect(Math.abs(limit / simulated - 1)).toBeLessThan(1e-6);
  });

  test('turns by the angle of its bends and to the side they say', () => {
    const elbow = (plane: number) =>
      partsOf(pipeOf([section('header', 'header', 300, 40, 40)], [bend(60, 90, 75, plane)]), 0).at(-1)!.frame;
    const directions = [0, 90, 180, 270].map((plane) =>
      elbow(plane).along.map((value) => Number(value.toFixed(12)) + 0),
    );
    // Along the flow up is y, right is z.
    expect(directions).toEqual([
      [0, 1, 0],
      [0, 0, 1],
      [0, -1, 0],
      [0, 0, -1],
    ]);
  });
});

function endOfAxis({ frame, length }: Part): Vector {
  return frame.origin.map((value, k) => value + length * frame.along[k]!) as unknown as Vector;
}
