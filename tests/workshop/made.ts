/** Pipes for the tests of the bench, and measures of what is drawn that share nothing with how it is drawn. */

import type { Bend, Pipe } from '../../src/model/pipe.ts';
import type { Section } from '../../src/model/section.ts';
import { beginOf, endOf, type Place, type Stroke } from '../../src/workshop/drawing.ts';
import type { Allowances } from '../../src/workshop/pattern.ts';
import type { Job } from '../../src/workshop/plan.ts';

type Role = Section['role'];

/** Lengths and diameters in mm. */
export function section(name: string, role: Role, length: number, left: number, right: number): Section {
  return { name, role, length: length / 1000, diameter: [left / 1000, right / 1000], step: false };
}

export function bend(
  at: number,
  angleDeg: number,
  radius: number,
  planeDeg = 0,
  segments: number | null = 4,
): Bend {
  return { at: at / 1000, angleDeg, radius: radius / 1000, planeDeg, segments };
}

export function pipeOf(sections: readonly Section[], bends: readonly Bend[] = [], name = 'made'): Pipe {
  return {
    name,
    sections,
    bends,
    sheet: null,
    silencer: null,
    wall: { by: 'given', at: [{ position: 0, temperature: 600 }] },
    roughness: 3e-5,
    coneLoss: 1,
    bendLoss: 1,
    endCorrection: 0.6,
  };
}

/** Header, diffuser, belly, baffle and stinger with three bends out of one plane, on two cones and a tube. */
export const bent = pipeOf(
  [
    section('header', 'header', 210, 36, 40),
    section('diffuser', 'diffuser', 300, 40, 86),
    section('belly', 'belly', 80, 86, 86),
    section('baffle', 'baffle', 210, 86, 23),
    section('stinger', 'stinger', 240, 23, 23),
  ],
  [bend(30, 70, 90, 180, 5), bend(240, 65, 120, 215, 5), bend(850, 25, 120, -30, 3)],
);

export const none: Allowances = { seam: 0, joint: 0, rootGap: 0, shrinkage: 0 };

export function job(changes: Partial<Job> = {}): Job {
  return {
    thickness: 0.0008,
    allowances: none,
    sheet: { width: 2000, height: 1000 },
    density: 7850,
    ...changes,
  };
}

/** Places along a stroke, an arc cut into many straight pieces. */
export function placesAlong(stroke: Stroke, pieces = 20_000): readonly Place[] {
  if (stroke.kind === 'line') return [stroke.from, stroke.to];
  if (stroke.kind === 'path') return stroke.places;
  return Array.from({ length: pieces + 1 }, (_, i) =>
    endOf({ ...stroke, sweepDeg: (i / pieces) * stroke.sweepDeg }),
  );
}

export function lengthOf(stroke: Stroke): number {
  const places = placesAlong(stroke);
  return places
    .slice(1)
    .reduce((sum, [x, y], i) => sum + Math.hypot(x - places[i]![0], y - places[i]![1]), 0);
}

/** Area within an outline by the shoelace formula [mm2]. */
export function shoelace(outline: readonly Stroke[]): number {
  const places = outline.flatMap((stroke) => placesAlong(stroke).slice(1));
  const sum = places.reduce((total, [x, y], i) => {
    const [x0, y0] = places.at(i - 1)!;
    return total + (x0 * y - x * y0) / 2;
  }, 0);
  return Math.abs(sum);
}

/** Largest gap between the end of a stroke and the beginning of the next [mm]. */
export function openness(outline: readonly Stroke[]): number {
  return Math.max(
    ...outline.map((stroke, i) => {
      const [x, y] = endOf(stroke);
      const [nextX, nextY] = beginOf(outline[(i + 1) % outline.length]!);
      return Math.hypot(nextX - x, nextY - y);
    }),
  );
}
