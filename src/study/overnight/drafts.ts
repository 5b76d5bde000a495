/**
 * The drafts of a study by their number, each made when asked for: a point of the grid or sample laid over the varied
 * quantities, or a pipe file of the folder. Nothing is kept of those not at hand.
 */

import { caseOf } from '../../case/load.ts';
import { type SentCase, sentCase } from '../../case/sent-case.ts';
import { type OpenedStudy, overridesOf, valueText } from '../../case/study/study-load.ts';
import type { Case } from '../../model/case.ts';
import { type Sample, sampleOver } from '../search/axis.ts';
import { fullGrid } from '../search/full-grid.ts';
import { latinHypercube } from '../search/latin-hypercube.ts';
import { sobolSequence } from '../search/sobol.ts';
import { studyCell } from '../work/study-cell.ts';
import { pipeReadings, type ShownQuantity } from './quantities.ts';

export interface Drafts {
  readonly count: number;
  /** What a draft is called, `17`, or the name of its pipe's file. */
  name(index: number): string;
  /** Values of the varied quantities in their units; of a folder's pipes, what is shown of them. */
  values(index: number): readonly number[];
  /** The draft's case, with the study's speeds and cell. @throws CaseProblems */
  caseAt(index: number): Case;
  /** The same as it is sent to a lender. @throws CaseProblems */
  sentAt(index: number): SentCase;
  readonly quantities: readonly ShownQuantity[];
  /** Cell length that drafts are run with [m]. */
  readonly cell: number;
}

/** `override` is a cell length in place of the study's [m]. */
export function draftsOf(lead: OpenedStudy, override: number | null): Drafts {
  const { study, opened, set } = lead;
  const cell = override ?? study.cell ?? studyCell(lead.base);
  const finished = (overrides: readonly string[]): Case => {
    const made = caseOf(opened, [...set, ...overrides]);
    const run = { ...made.run, speeds: study.speeds, cell };
    // What a page lists of a single case would be carried by every draft through the threads.
    return { ...made, run, inputs: [], assumed: [], warnings: [] };
  };
  if (study.pipes.length > 0) {
    const pipeAt = (index: number): string[] => [`pipe=${JSON.stringify(study.pipes[index]?.file)}`];
    const caseAt = (index: number): Case => finished(pipeAt(index));
    return {
      count: study.pipes.length,
      name: (index) => study.pipes[index]?.name ?? '',
      values: (index) => pipeReadings.map(({ read }) => read(caseAt(index))),
      caseAt,
      sentAt: (index) => sentCase(opened, [...set, ...pipeAt(index)]),
      quantities: pipeReadings,
      cell,
    };
  }
  const sample = sampleOf(lead);
  const overridesAt = (index: number): string[] =>
    sample.at(index).flatMap((value, k) => overridesOf(study.varied[k]!, value));
  return {
    count: sample.count,
    name: (index) => String(index + 1),
    values: (index) =>
      sample.at(index).map((value, k) => Number.parseFloat(valueText(lead.study.varied[k]!, value))),
    caseAt: (index) => finished(overridesAt(index)),
    sentAt: (index) => sentCase(opened, [...set, ...overridesAt(index)]),
    quantities: study.varied.map(({ name, unit }) => ({ name, unit, ranged: true })),
    cell,
  };
}

function sampleOf({ study }: OpenedStudy): Sample {
  const { sample, varied } = study;
  const axes = varied.map((one) => one.axis);
  switch (sample.kind) {
    case 'grid':
      return fullGrid(axes);
    case 'latin':
      return sampleOver(axes, latinHypercube(axes.length, sample.count, sample.seed));
    case 'sobol':
      return sampleOver(axes, sobolSequence(axes.length, sample.count, sample.seed));
  }
}
