/**
 * A pipe's sections as the bench sees them: lengths, diameters, cone angles, volumes, and where each begins, counted
 * from the piston's face through the exhaust passage.
 */
import type { Case } from '../model/case.ts';
import type { Section } from '../model/section.ts';
import { coneVolume, includedAngleDeg } from './cone.ts';
import { exhaustSections } from './exhaust.ts';
import { baffleOf, lengthOf, type Span } from './places.ts';

export interface SectionRow extends Span {
  readonly name: string;
  readonly role: Section['role'];
  readonly length: number;
  readonly diameter: readonly [left: number, right: number];
  /** Whole angle of the cone [deg], above 0 where it widens. */
  readonly includedAngleDeg: number;
  readonly volume: number;
}

/** The exhaust passage as a first row, then the pipe's sections. */
export function sectionRows(subject: Pick<Case, 'engine' | 'pipe'>): readonly SectionRow[] {
  return exhaustSections(subject).map((section) => ({
    name: section.role === 'passage' ? 'exhaust passage' : section.name,
    role: section.role,
    start: section.start,
    end: section.end,
    length: section.length,
    diameter: section.diameter,
    includedAngleDeg: includedAngleDeg(section),
    volume: coneVolume(section),
  }));
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
  const baffle = baffleOf(rows);
  return {
    baffleStart: baffle?.start ?? null,
    baffleMiddle: baffle?.middle ?? null,
    baffleEnd: baffle?.end ?? null,
    total: lengthOf(rows),
    volume: rows.reduce((sum, row) => sum + row.volume, 0),
  };
}
