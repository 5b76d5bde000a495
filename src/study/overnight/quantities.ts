/** What is shown of a pipe that comes from a file of its own: the lengths and bores that drafts differ by. */

import type { Case } from '../../model/case.ts';
import { pipeLengths, sectionRows } from '../../pipe/pipe-table.ts';

/** A column of the ranking that says what a draft is. */
export interface ShownQuantity {
  readonly name: string;
  readonly unit: string;
  /** Varied over a range, which may be widened; else it is read from pipes that were given. */
  readonly ranged: boolean;
}

export interface PipeReading extends ShownQuantity {
  readonly read: (subject: Case) => number;
}

const inMm = (value: number): number => Number((1000 * value).toPrecision(6));

export const pipeReadings: readonly PipeReading[] = [
  {
    name: 'length to baffle end',
    unit: 'mm',
    ranged: false,
    read: ({ engine, pipe }) => inMm(pipeLengths(sectionRows(engine, pipe)).baffleEnd ?? 0),
  },
  {
    name: 'largest diameter',
    unit: 'mm',
    ranged: false,
    read: ({ pipe }) => inMm(Math.max(...pipe.sections.flatMap((section) => [...section.diameter]))),
  },
  {
    name: 'tail bore',
    unit: 'mm',
    ranged: false,
    read: ({ pipe }) => inMm(pipe.sections.at(-1)?.diameter[1] ?? 0),
  },
];
