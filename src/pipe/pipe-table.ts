/**
 * A pipe's sections as the bench sees them: lengths, diameters, cone angles, volumes, and where each begins, counted
 * from the piston's face through the exhaust passage. A cone's volume is (π/12) L (d₁² + d₁d₂ + d₂²).
 */
import type { Engine } from '../model/engine.ts';
import type { Pipe } from '../model/pipe.ts';
import type { Section } from '../model/section.ts';

export interface SectionRow {
  readonly name: string;
  readonly role: Section['role'];
  /** Distance of its start from the piston's face [m]. */
  readonly start: number;
  readonly length: number;
  readonly diameter: readonly [left: number, right: number];
  /** Whole angle of the cone [deg], above 0 where it widens. */
  readonly includedAngleDeg: number;
  readonly volume: number;
}

/** Whole angle between the walls of a cone [deg]. */
export function includedAngleDeg(section: Pick<Section, 'length' | 'diameter'>): number {
  const [left, right] = section.diameter;
  return (360 / Math.PI) * Math.atan2(right - left, 2 * section.length);
}

export function coneVolume(section: Pick<Section, 'length' | 'diameter'>): number {
  const [left, right] = section.diameter;
  return (Math.PI / 12) * section.length * (left * left + left * right + right * right);
}

/** Diameter of a circle of this area [m]. */
export function diameterOf(area: number): number {
  return Math.sqrt((4 * area) / Math.PI);
}

/** The exhaust passage as a first row, then the pipe's sections. */
export function sectionRows(engine: Engine, pipe: Pipe): readonly SectionRow[] {
  const { passage } = engine;
  const first: Section = {
    name: 'exhaust passage',
    role: 'passage',
    length: passage.length,
    diameter: [diameterOf(passage.entryArea), diameterOf(passage.exitArea)],
    step: false,
  };
  let start = 0;
  return [first, ...pipe.sections].map((section) => {
    const row = {
      name: section.name,
      role: section.role,
      start,
      length: section.length,
      diameter: section.diameter,
      includedAngleDeg: includedAngleDeg(section),
      volume: coneVolume(section),
    };
    start += section.length;
    return row;
  });
}

export interface PipeLengths {
  /** From the piston's face [m]; null where the pipe has no baffle. */
  readonly baffleStart: number | null;
  readonly baffleMiddle: number | null;
  readonly baffleEnd: number | null;
  readonly total: number;
  readonly volume: number;
}

export function pipeLengths(rows: readonly SectionRow[]): PipeLengths {
  const baffles = rows.filter((row) => row.role === 'baffle');
  const [first, last] = [baffles[0], baffles.at(-1)];
  const start = first ? first.start : null;
  const end = last ? last.start + last.length : null;
  return {
    baffleStart: start,
    baffleMiddle: start !== null && end !== null ? (start + end) / 2 : null,
    baffleEnd: end,
    total: rows.reduce((sum, row) => sum + row.length, 0),
    volume: rows.reduce((sum, row) => sum + row.volume, 0),
  };
}

/** How far behind the flange the header counts as begun, its transition from the passage done [m]. */
export const TRANSITION = 0.05;

/** Diameter of a pipe a distance behind its flange [m]. */
export function diameterAt(pipe: Pipe, distance: number): number {
  let left = distance;
  for (const { length, diameter } of pipe.sections) {
    if (left <= length) return diameter[0] + ((diameter[1] - diameter[0]) * left) / length;
    left -= length;
  }
  return pipe.sections.at(-1)?.diameter[1] ?? 0;
}
