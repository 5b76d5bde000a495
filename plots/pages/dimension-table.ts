/** Dimensions of several pipes side by side: a line a section, length and bores of each pipe [mm]. */

import type { Draft } from '../figures/outline-drawing.ts';
import type { Stretch } from '../marks/silhouette.ts';
import type { Markup } from '../theme/markup.ts';
import { fixed } from '../theme/numbers.ts';
import { table } from './parts.ts';

const bore = (value: number): string => fixed(value, 1).replace(/\.0$/, '');

const boresOf = ({ diameters: [left, right] }: Stretch): string =>
  bore(left) === bore(right) ? bore(left) : `${bore(left)} → ${bore(right)}`;

const lengthOf = ({ start, end }: Stretch): string => fixed(end - start, 0);

/** Names of all sections in the order of the gas; one that only a later pipe has stands behind its neighbour there. */
export function sectionNames(drafts: readonly Draft[]): readonly string[] {
  const names: string[] = [];
  for (const { outline } of drafts) {
    let last = -1;
    for (const { name } of outline) {
      const at = names.indexOf(name);
      if (at < 0) names.splice(++last, 0, name);
      else last = at;
    }
  }
  return names;
}

/** Passages of the engine are left out: they are not made with the pipe. */
export function dimensionTable(drafts: readonly Draft[]): Markup {
  const pipes = drafts.map(({ name, outline }) => ({
    name,
    outline: outline.filter(({ role }) => role !== 'passage'),
  }));
  const rows = sectionNames(pipes).map((section) => ({
    cells: [
      { text: section },
      ...pipes.flatMap(({ outline }, index) => {
        const part = outline.find(({ name }) => name === section);
        return [
          { text: part === undefined ? '–' : lengthOf(part), number: true, kind: `draft-name-${index}` },
          { text: part === undefined ? '–' : boresOf(part), number: true },
        ];
      }),
    ],
  }));
  return table(
    'Sections from the flange on: lengths along the axis, and bores',
    [
      { name: 'section' },
      ...pipes.flatMap(({ name }) => [
        { name, unit: 'mm long', number: true },
        { name: '', unit: '⌀ mm', number: true },
      ]),
    ],
    rows,
  );
}
