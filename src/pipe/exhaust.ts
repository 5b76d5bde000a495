/**
 * Ducts of an engine from its case: the exhaust from the port face to the open air, and the intake tract. Joined tapers
 * make one duct on one even mesh; a declared jump in diameter starts a new one. The open end is lengthened by its
 * end correction.
 */

import { cellsFor, meshTapers, type Taper, totalLength } from '../../solver/index.ts';
import type { Case } from '../model/case.ts';
import type { Section } from '../model/section.ts';
import { diameterOf } from './circle.ts';
import { placed, type Span } from './places.ts';

/** Diameters that differ by less than this join; written drawings are rounded [m]. */
const JOIN = 2e-4;

/** Tapers that make one duct, with the position of its start from the port face [m]. */
export interface DuctRun {
  readonly name: string;
  readonly start: number;
  readonly tapers: readonly Taper[];
}

/** The exhaust as drawn: the passage from the port's face, then the pipe's sections; places from the port's face [m]. */
export function exhaustSections(subject: Pick<Case, 'engine' | 'pipe'>): readonly (Section & Span)[] {
  const { length, entryArea, exitArea } = subject.engine.passage;
  const passage: Section = {
    name: 'passage',
    role: 'passage',
    length,
    diameter: [diameterOf(entryArea), diameterOf(exitArea)],
    step: false,
  };
  return placed([passage, ...subject.pipe.sections]);
}

/** Whatever of a case is cut into cells. */
export function meshedLengths(
  subject: Pick<Case, 'engine' | 'pipe'>,
): readonly { readonly length: number }[] {
  const { intake, transfers } = subject.engine;
  const between = transfers.passage.as === 'duct' ? [transfers.passage] : [];
  return [...exhaustSections(subject), ...intake.tract, ...between];
}

/** Groups sections into ducts; `tailCorrection` lengthens the last one [m]. */
export function ductRuns(name: string, sections: readonly Section[], tailCorrection: number): DuctRun[] {
  const runs: { name: string; start: number; tapers: Taper[] }[] = [];
  let position = 0;
  let before = Number.NaN;
  for (const { length, diameter } of sections) {
    const [left, right] = diameter;
    const current = runs.at(-1);
    const joins = Math.abs(left - before) < JOIN;
    if (current !== undefined && joins) current.tapers.push({ length, diameter: [before, right] });
    else
      runs.push({
        name: `${name} ${runs.length + 1}`,
        start: position,
        tapers: [{ length, diameter: [left, right] }],
      });
    before = right;
    position += length;
  }
  if (tailCorrection > 0) runs.at(-1)?.tapers.push({ length: tailCorrection, diameter: [before, before] });
  return runs;
}

/** Meshes a run with cells of about a length [m]. */
export function meshRun(run: DuctRun, cell: number): ReturnType<typeof meshTapers> {
  return meshTapers(run.tapers, cellsFor(totalLength(run.tapers), cell));
}
