/**
 * Changes of an engine's pipe, passage and roofs that a sweep tries, each as the list of overrides that makes it: what is
 * advised is then what `--set` does, to the last digit. Lengths go to the millimetre and diameters to half of one, as they
 * are cut. A change that the reader of case files refuses is none.
 */

import { caseOf, type OpenedFile } from '../../case/load.ts';
import { unlessRefused } from '../../case/text/problem.ts';
import type { DimensionChange } from '../../findings/answers/advice.ts';
import type { Case } from '../../model/case.ts';
import type { Pipe } from '../../model/pipe.ts';
import type { Section } from '../../model/section.ts';
import { diameterOf } from '../../pipe/circle.ts';
import { flangeDiameter, lengthOf, stagesOf } from '../../pipe/places.ts';
import { bellyDiameter, tailDiameter, withBelly, withTail } from '../../pipe/shape.ts';

export interface Change {
  readonly changes: readonly DimensionChange[];
  readonly set: readonly string[];
  readonly subject: Case;
}

/** Makes changes of one case, the overrides that are in force staying so. */
export interface Changer {
  readonly subject: Case;
  readonly make: (changes: readonly DimensionChange[], set: readonly string[]) => Change | null;
}

export function changerOf(opened: OpenedFile, set: readonly string[]): Changer {
  const subject = caseOf(opened, set);
  return {
    subject,
    make(changes, more) {
      const changed = unlessRefused(() => caseOf(opened, [...set, ...more]));
      if (changed === null) return null;
      // A roof is cut with its head kept, which is said; any other new warning says that the change is odd.
      const isOdd = changed.warnings.length > subject.warnings.length + 1;
      return isOdd ? null : { changes, set: more, subject: changed };
    },
  };
}

const mm = (metres: number): string => `${Number((1000 * metres).toFixed(4))} mm`;
const whole = (metres: number): number => Math.round(1000 * metres) / 1000;
const half = (metres: number): number => Math.round(2000 * metres) / 2000;

/** Leads to a section by its name, or its number where the name would be misread. */
function placeOf({ name }: Section, index: number): string {
  return `pipe.sections.${/^[a-z][\w -]*$/i.test(name) ? name : index}`;
}

/** The lengths of the sections of some roles times a ratio. */
export function scaledLengths(
  changer: Changer,
  roles: readonly Section['role'][],
  ratio: number,
): Change | null {
  const changes: DimensionChange[] = [];
  const set: string[] = [];
  changer.subject.pipe.sections.forEach((section, index) => {
    if (!roles.includes(section.role)) return;
    const to = whole(section.length * ratio);
    if (to === section.length || !(to > 0)) return;
    changes.push({ name: section.name, of: 'length', from: section.length, to });
    set.push(`${placeOf(section, index)}.length=${mm(to)}`);
  });
  return set.length === 0 ? null : changer.make(changes, set);
}

export const headerLength = ({ sections }: Pipe): number => lengthOf(stagesOf(sections, 'header'));

/** The header longer or shorter by a length [m]; null where less than half of it would be left. */
export function longerHeader(changer: Changer, by: number): Change | null {
  const length = headerLength(changer.subject.pipe);
  if (!(length > 0) || length + by < length / 2 || Math.abs(by) < 0.0015) return null;
  return scaledLengths(changer, ['header'], 1 + by / length);
}

/** Every diameter that differs in another shape of the pipe, written as the file states it. */
function diameters(
  changer: Changer,
  name: string,
  span: readonly [number, number],
  pipe: Pipe,
): Change | null {
  const { subject } = changer;
  const stated = new Set(subject.inputs.map(({ path }) => path));
  const set = pipe.sections.flatMap((section, index) => {
    const old = subject.pipe.sections[index]!;
    if (section.diameter.every((d, k) => Math.abs(d - (old.diameter[k] ?? 0)) < 1e-7)) return [];
    const place = placeOf(old, index);
    const named = `pipe.sections.${old.name}`;
    const [left, right] = section.diameter;
    if (stated.has(`${named}.to`)) return [`${place}.to=${mm(right)}`];
    const isSame = subject.inputs.some(({ path, value }) => path === `${named}.diameter` && value === 'same');
    return isSame ? [] : [`${place}.diameter=[${mm(left)}, ${mm(right)}]`];
  });
  const change = changer.make([{ name, of: 'diameter', from: span[0], to: span[1] }], set);
  // A file may state its sections in ways that these overrides do not reach.
  const isMade = change?.subject.pipe.sections.every((section, index) =>
    section.diameter.every((d, k) => Math.abs(d - (pipe.sections[index]?.diameter[k] ?? 0)) < 2e-6),
  );
  return isMade === true ? change : null;
}

function otherBelly(changer: Changer, ratio: number): Change | null {
  const { pipe } = changer.subject;
  const before = bellyDiameter(pipe);
  const to = half(before * ratio);
  return diameters(changer, 'belly', [before, to], rounded(withBelly(pipe, to)));
}

/** Narrowest stinger over the header that is tried [-]: narrower runs hot and can burn a piston. Jennings 1973: 0.58. */
const NARROWEST = 0.58;

function otherStinger(changer: Changer, ratio: number): Change | null {
  const { pipe } = changer.subject;
  if (stagesOf(pipe.sections, 'stinger').length === 0) return null;
  const before = tailDiameter(pipe);
  const to = half(before * ratio);
  if (to < before && to < NARROWEST * flangeDiameter(pipe)) return null;
  return diameters(changer, 'stinger', [before, to], rounded(withTail(pipe, to)));
}

const rounded = (pipe: Pipe): Pipe => ({
  ...pipe,
  sections: pipe.sections.map((section) => ({
    ...section,
    diameter: [half(section.diameter[0]), half(section.diameter[1])],
  })),
});

/** All exhaust roofs up by a height, down if negative [m]; floors and head stay. */
function raisedRoofs(changer: Changer, by: number): Change | null {
  const { windows } = changer.subject.engine.exhaust;
  const raises = windows.map(({ name }) =>
    changer.subject.inputs.find(({ path }) => path === `engine.exhaust.windows.${name}.raise`),
  );
  // One that was raised already is left alone: the words for it would not be those of the file.
  if (raises.some((raise) => raise?.assumed !== true)) return null;
  const set = windows.map((_, k) => `engine.exhaust.windows.${k}.raise=${mm(by)}`);
  return changer.make([{ name: 'exhaust roofs', of: 'roof', from: 0, to: by }], set);
}

/** The passage's exit, and the flange that it meets, wider or narrower in a ratio. */
function otherPassage(changer: Changer, ratio: number): Change | null {
  const { engine, pipe, inputs } = changer.subject;
  const before = diameterOf(engine.passage.exitArea);
  const to = half(before * ratio);
  const [first] = pipe.sections;
  if (first === undefined || Math.abs(first.diameter[0] - before) > 2e-4) return null;
  const isRound = inputs.some(({ path }) => path === 'engine.passage.exitDiameter');
  const isPair = inputs.some(({ path }) => path === `pipe.sections.${first.name}.diameter.0`);
  if (!isRound || !isPair) return null;
  return changer.make(
    [{ name: 'passage exit and flange', of: 'diameter', from: before, to }],
    [`engine.passage.exitDiameter=${mm(to)}`, `${placeOf(first, 0)}.diameter.0=${mm(to)}`],
  );
}

/** Changes of shape that are tried, in the order of the work that they are. */
export function shapeChanges(changer: Changer): readonly Change[] {
  return [
    scaledLengths(changer, ['baffle'], 0.9),
    scaledLengths(changer, ['baffle'], 1.1),
    scaledLengths(changer, ['diffuser'], 0.93),
    scaledLengths(changer, ['diffuser'], 1.07),
    otherBelly(changer, 1.06),
    otherStinger(changer, 1.06),
    otherStinger(changer, 0.95),
    otherPassage(changer, 1.05),
    raisedRoofs(changer, 0.4e-3),
    raisedRoofs(changer, -0.4e-3),
  ].filter((one) => one !== null);
}
