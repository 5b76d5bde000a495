/**
 * Where the parts of a row of sections stand, and what the row is as a whole. Positions count from its left end: from the
 * port's face where the row begins with the passage, from the flange where it is a pipe alone.
 */

import type { Pipe } from '../model/pipe.ts';
import type { Section } from '../model/section.ts';
import { type Cone, coneSheet } from './cone.ts';

/** Start and end of a section [m]. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** Sections with their places, one after the other. */
export function placed<S extends { readonly length: number }>(sections: readonly S[]): readonly (S & Span)[] {
  let start = 0;
  return sections.map((section) => {
    const span = { start, end: start + section.length };
    start = span.end;
    return { ...section, ...span };
  });
}

/** Length of all sections [m], and of `more` behind them. */
export function lengthOf(sections: readonly { readonly length: number }[], more = 0): number {
  return sections.reduce((sum, { length }) => sum + length, more);
}

/** Where the baffle, all stages of it, begins, has its middle and ends [m]. */
export interface Baffle {
  readonly start: number;
  readonly middle: number;
  readonly end: number;
}

/** The baffle of placed sections; null without one. */
export function baffleOf(sections: readonly (Span & { readonly role: string })[]): Baffle | null {
  const stages = sections.filter(({ role }) => role === 'baffle');
  const start = stages[0]?.start;
  const end = stages.at(-1)?.end;
  return start === undefined || end === undefined ? null : { start, middle: (start + end) / 2, end };
}

/** What the wave comes back from: the baffle, or the open end of a pipe without one. */
export function reflectorOf(sections: readonly (Span & { readonly role: string })[]): Baffle {
  const end = sections.at(-1)?.end ?? 0;
  return baffleOf(sections) ?? { start: end, middle: end, end };
}

/** All stages of a role as one cone; null where there is none. */
export function wholeCone<S extends Cone & Span & Pick<Section, 'role'>>(
  sections: readonly S[],
  role: Section['role'],
): (Cone & { readonly stages: readonly S[] }) | null {
  const stages = stagesOf(sections, role);
  const [first, last] = [stages[0], stages.at(-1)];
  if (first === undefined || last === undefined) return null;
  return { stages, length: last.end - first.start, diameter: [first.diameter[0], last.diameter[1]] };
}

/** The sections of a role, in order. */
export function stagesOf<S extends Pick<Section, 'role'>>(
  sections: readonly S[],
  role: Section['role'],
): readonly S[] {
  return sections.filter((section) => section.role === role);
}

/** Largest inner diameter [m]. */
export function largestDiameter(sections: readonly Pick<Section, 'diameter'>[]): number {
  return Math.max(...sections.flatMap(({ diameter }) => [...diameter]));
}

/** Diameter that a pipe begins with at the flange [m]. */
export function flangeDiameter({ sections }: Pick<Pipe, 'sections'>): number {
  return sections[0]?.diameter[0] ?? 0;
}

/** Diameter that a pipe ends with, in the open or in its silencer [m]. */
export function endDiameter({ sections }: Pick<Pipe, 'sections'>): number {
  return sections.at(-1)?.diameter[1] ?? 0;
}

/** Length that the open end seems to add to the pipe [m]; none in front of a silencer. */
export function endCorrectionOf(pipe: Pipe): number {
  return pipe.silencer === null ? 0.5 * pipe.endCorrection * endDiameter(pipe) : 0;
}

/** Sheet of all sections [m2]. */
export function sheetOf(sections: readonly Cone[]): number {
  return sections.reduce((sum, section) => sum + coneSheet(section), 0);
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
  return endDiameter(pipe);
}
