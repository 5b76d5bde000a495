/**
 * From a pipe to blanks on sheets. A blank larger than the sheet is first parted into panels round the pipe, each with a
 * seam more, and if that does not do, its part is cut in two along the pipe. What was split is said; what cannot be is
 * refused.
 */

import type { Pipe } from '../model/pipe.ts';
import { volumeOf } from './mitred-cone.ts';
import { fitsSheet, type NestedSheet, nested, type SheetSize } from './nest.ts';
import { notesOf, type Part, partsOf } from './parts.ts';
import { type Allowances, type Pattern, patternOf } from './pattern.ts';
import { WorkshopError } from './workshop-error.ts';

export interface Job {
  /** [m] */
  readonly thickness: number;
  readonly allowances: Allowances;
  /** [mm] */
  readonly sheet: SheetSize;
  /** [kg/m3] */
  readonly density: number;
}

export interface Plan {
  readonly pipe: Pipe;
  readonly name: string;
  readonly job: Job;
  readonly parts: readonly Part[];
  /** In the order of the parts. */
  readonly patterns: readonly Pattern[];
  readonly sheets: readonly NestedSheet[];
  /** What was split, taken or left out. */
  readonly notes: readonly string[];
}

/** Volume inside the welded pipe [m3]. */
export function builtVolume({ parts }: Pick<Plan, 'parts'>): number {
  return parts.reduce((sum, { middle, thickness }) => {
    const inside = middle.radius - (thickness / 2) * Math.hypot(1, middle.slope);
    return sum + volumeOf({ ...middle, radius: inside });
  }, 0);
}

const MOST_PANELS = 4;
/** Cuts in two along the pipe, at most. */
const MOST_CUTS = 24;

export function planOf(pipe: Pipe, name: string, job: Job): Plan {
  const cuts: number[] = [];
  for (;;) {
    const parts = partsOf(pipe, job.thickness, cuts);
    const panelled = parts.map((part) => panelsOf(part, job, name));
    const tooLarge = parts.find((_, index) => panelled[index] === null);
    if (tooLarge === undefined) {
      const patterns = panelled.flatMap((panels) => panels ?? []);
      const notes = [...splitNotes(parts, patterns, cuts), ...notesOf(pipe)];
      return { pipe, name, job, parts, patterns, sheets: nested(patterns, job.sheet), notes };
    }
    if (cuts.length >= MOST_CUTS || tooLarge.length < 0.02 || !parted(pipe, job, cuts, tooLarge))
      refuseSheet(tooLarge, job, name);
    cuts.push(tooLarge.at + tooLarge.length / 2);
  }
}

/** The fewest panels of a part that fit the sheet; null if four do not. */
function panelsOf(part: Part, { allowances, sheet }: Job, name: string): readonly Pattern[] | null {
  for (let of = 1; of <= MOST_PANELS; of += 1) {
    const panels = Array.from({ length: of }, (_, i) => patternOf(part, allowances, name, [i + 1, of]));
    if (panels.every(({ piece }) => fitsSheet(piece, sheet))) return panels;
  }
  return null;
}

/** Whether the part can be cut half-way: not where a mitre reaches. */
function parted(pipe: Pipe, job: Job, cuts: readonly number[], part: Part): boolean {
  try {
    partsOf(pipe, job.thickness, [...cuts, part.at + part.length / 2]);
    return true;
  } catch (error) {
    if (error instanceof WorkshopError) return false;
    throw error;
  }
}

function refuseSheet(part: Part, { allowances, sheet }: Job, name: string): never {
  const { piece } = patternOf(part, allowances, name, [1, MOST_PANELS]);
  const size = [piece.width, piece.height].map((side) => Math.ceil(side)).join(' x ');
  throw new WorkshopError(
    `A sheet of ${sheet.width} x ${sheet.height} mm is too small for "${part.name}": even a quarter of it is ${size} mm. ` +
      'Give the size of a larger one (--sheet).',
  );
}

function splitNotes(parts: readonly Part[], patterns: readonly Pattern[], cuts: readonly number[]): string[] {
  const panelled = parts.filter((part) => patterns.some((one) => one.part === part && one.panel[1] > 1));
  const notes = panelled.map((part) => {
    const count = patterns.filter((one) => one.part === part).length;
    return `"${part.name}" is larger than the sheet: it is split into ${count} panels round the pipe, with a seam each.`;
  });
  if (cuts.length > 0) {
    const places = [...cuts].sort((a, b) => a - b).map((at) => (1000 * at).toFixed(0));
    notes.push(
      `The sheet is too small for some parts: extra welds round the pipe at ${places.join(', ')} mm.`,
    );
  }
  return notes;
}
