/** What is shown of a pipe that comes from a file of its own: the lengths and bores that drafts differ by. */

import type { Case } from '../../model/case.ts';
import { exhaustSections } from '../../pipe/exhaust.ts';
import { baffleOf, endDiameter, largestDiameter } from '../../pipe/places.ts';

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
    read: (subject) => inMm(baffleOf(exhaustSections(subject))?.end ?? 0),
  },
  {
    name: 'largest diameter',
    unit: 'mm',
    ranged: false,
    read: ({ pipe }) => inMm(largestDiameter(pipe.sections)),
  },
  {
    name: 'tail bore',
    unit: 'mm',
    ranged: false,
    read: ({ pipe }) => inMm(endDiameter(pipe)),
  },
];
