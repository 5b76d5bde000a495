/** A step's pipe as the overrides that make it of the given one: its lengths where nothing else is changed, or its file. */

import type { Pipe } from '../../model/pipe.ts';
import type { Section } from '../../model/section.ts';
import type { SteppedPipe } from './result.ts';

/** Leads to a section by its name, or by its number where the name would be misread or is another's as well. */
function placeOf({ sections }: Pipe, { name }: Section, index: number): string {
  const isPlain = /^[a-z][\w -]*$/i.test(name) && sections.filter((one) => one.name === name).length === 1;
  return `pipe.sections.${isPlain ? name : index}`;
}

/** @param file the step's pipe file; null: nothing new is in it */
export function overridesOf(
  given: Pipe,
  { dimensions, pipe }: Pick<SteppedPipe, 'dimensions' | 'pipe'>,
  file: string | null,
): readonly string[] {
  const names = new Set(given.sections.map(({ name }) => name));
  const areLengths = dimensions?.every(({ name }) => names.has(name)) ?? false;
  if (!areLengths) return file === null ? [] : [`pipe=${file}`];
  return given.sections.flatMap((was, index) => {
    const length = pipe.sections[index]?.length ?? was.length;
    if (length === was.length) return [];
    return [`${placeOf(given, was, index)}.length=${Number((1000 * length).toFixed(4))} mm`];
  });
}
