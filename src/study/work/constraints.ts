/**
 * Whether a draft keeps to the constraints of a study, and by how much it misses them. All are read from the drawing
 * alone, so that nothing has to be run.
 */

import type { Case } from '../../model/case.ts';
import type { Section } from '../../model/section.ts';
import type { Constraints, Limit } from '../../model/study.ts';
import { includedAngleDeg } from '../../pipe/cone.ts';
import { exhaustSections } from '../../pipe/exhaust.ts';
import { baffleOf, largestDiameter, sheetOf, stagesOf } from '../../pipe/places.ts';

/** A draft as far as constraints look at it. */
export type Drawn = Pick<Case, 'engine' | 'pipe'>;

/** One constraint, with what it allows in words. */
export interface Constraint {
  /** `length to the baffle's end` */
  readonly name: string;
  /** `at most 900 mm` */
  readonly allows: string;
  /** The measured value in words, `912 mm`. */
  readonly found: (draft: Drawn) => string;
  /** By how much it is missed, as a share of the limit; 0 and less: it is met, by so much. */
  readonly miss: (draft: Drawn) => number;
}

const mm = (value: number): string => `${Number((1000 * value).toFixed(1))} mm`;
const deg = (value: number): string => `${Number(value.toFixed(1))} deg`;
const cm2 = (value: number): string => `${Number((1e4 * value).toFixed(0))} cm2`;

export function constraintList(stated: Constraints, base: Drawn): readonly Constraint[] {
  const sheetOfBase = sheetArea(base);
  return [
    limited("length to the baffle's end", stated.lengthToBaffleEnd, mm, (draft) => [
      baffleOf(exhaustSections(draft))?.end ?? Number.NaN,
    ]),
    limited('largest diameter', stated.largestDiameter, mm, (draft) => [
      largestDiameter(draft.pipe.sections),
    ]),
    limited('diffuser angle', stated.diffuserAngle, deg, (draft) => anglesOf(draft, 'diffuser')),
    limited('baffle angle', stated.baffleAngle, deg, (draft) => anglesOf(draft, 'baffle')),
    limited('sheet', stated.sheetArea, cm2, (draft) => [sheetArea(draft)]),
    stated.sameSheet === null ? null : sameSheet(stated.sameSheet, sheetOfBase),
    stated.passageFixed ? fixedPassage(base) : null,
  ].filter((one) => one !== null);
}

function limited(
  name: string,
  limit: Limit | null,
  text: (value: number) => string,
  measure: (draft: Drawn) => readonly number[],
): Constraint | null {
  if (limit === null) return null;
  const { atLeast, atMost } = limit;
  const allows = [
    atLeast === null ? '' : `at least ${text(atLeast)}`,
    atMost === null ? '' : `at most ${text(atMost)}`,
  ];
  return {
    name,
    allows: allows.filter((part) => part !== '').join(', '),
    found: (draft) => [...new Set(measure(draft).map(text))].join(', '),
    miss: (draft) => {
      const values = measure(draft);
      if (values.length === 0) return 0;
      const below = atLeast === null ? -1 : (atLeast - Math.min(...values)) / Math.max(atLeast, 1e-9);
      const above = atMost === null ? -1 : (Math.max(...values) - atMost) / Math.max(atMost, 1e-9);
      // The end of a range of millimetres is met though it is not exact in binary.
      const miss = Math.max(below, above);
      return Math.abs(miss) < 1e-9 ? 0 : miss;
    },
  };
}

function sameSheet(within: number, base: number): Constraint {
  const change = (draft: Drawn): number => sheetArea(draft) / base - 1;
  return {
    name: 'same sheet',
    allows: `${cm2(base)} within ${Number((100 * within).toFixed(2))} %`,
    found: (draft) => cm2(sheetArea(draft)),
    miss: (draft) => Math.abs(change(draft)) - within,
  };
}

function fixedPassage(base: Drawn): Constraint {
  const { passage } = base.engine;
  const changes = (draft: Drawn): number[] =>
    (['length', 'entryArea', 'exitArea'] as const).map((key) =>
      Math.abs(draft.engine.passage[key] / passage[key] - 1),
    );
  return {
    name: 'passage',
    allows: 'as the case has it',
    found: (draft) => (Math.max(...changes(draft)) > 1e-9 ? 'changed' : 'unchanged'),
    miss: (draft) => {
      const most = Math.max(...changes(draft));
      return most > 1e-9 ? most : -1;
    },
  };
}

/** Whole angles of the stages of a role, taken as positive [deg]. */
function anglesOf(draft: Drawn, role: Section['role']): number[] {
  return stagesOf(draft.pipe.sections, role).map((section) => Math.abs(includedAngleDeg(section)));
}

/** Sheet of all sections of a pipe [m2]. */
export function sheetArea({ pipe }: Pick<Drawn, 'pipe'>): number {
  return sheetOf(pipe.sections);
}

/** Why a draft is outside its constraints, in words; empty: it keeps to all. */
export function missText(constraints: readonly Constraint[], draft: Drawn): string {
  return constraints
    .filter((one) => one.miss(draft) > 0)
    .map((one) => `${one.name} ${one.found(draft)}, allowed ${one.allows}`)
    .join('; ');
}
