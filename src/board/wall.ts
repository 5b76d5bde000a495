/** Wall temperatures given along a pipe, kept along whatever its length is made. */

import { writeQuantity } from '../case/text/units.ts';
import type { Case } from '../model/case.ts';
import type { Section } from '../model/section.ts';
import { lengthOf } from '../pipe/places.ts';

type Points = readonly { readonly position: number; readonly temperature: number }[];

/** Within this of the pipe's end a point stands for the end [m]. */
const AT_END = 1e-6;

/** The value of `pipe.wall.given`. */
export function wallText(points: Points): string {
  const items = points.map(
    ({ position, temperature }) =>
      `{ at: ${writeQuantity(position, 'length', 'mm')}, temperature: ${writeQuantity(temperature, 'temperature', 'degC')} }`,
  );
  return `[${items.join(', ')}]`;
}

/**
 * What has to be said of the wall where the sections are made others: a point at the pipe's end goes with it, those beyond the
 * end go. Nothing where the wall is assumed, or given by one temperature, or found by a balance.
 */
export function wallChange(
  { pipe, assumed }: Case,
  sections: readonly Section[],
): readonly (readonly [path: string, text: string])[] {
  if (pipe.wall.by !== 'given' || pipe.wall.at.length < 2) return [];
  if (assumed.some(({ path }) => path === 'pipe.wall')) return [];
  const exact = (all: readonly Section[]): number => Number(lengthOf(all).toPrecision(12));
  const [was, is] = [exact(pipe.sections), exact(sections)];
  if (was === is) return [];
  const last = pipe.wall.at.at(-1);
  const inside = pipe.wall.at.filter(({ position }) => position < is - AT_END && position < was - AT_END);
  const reaches = last !== undefined && last.position >= Math.min(was, is) - AT_END;
  return [['pipe.wall.given', wallText(reaches ? [...inside, { ...last, position: is }] : pipe.wall.at)]];
}
