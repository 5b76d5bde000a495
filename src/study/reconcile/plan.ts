/** What a reconciliation is to do: the case as it is computed, what of it is uncertain, and what was measured. */

import type { OpenedFile } from '../../case/load.ts';
import { caseOf } from '../../case/load.ts';
import { writeQuantity } from '../../case/text/units.ts';
import type { Case } from '../../model/case.ts';
import type { Measured } from '../../model/measured.ts';
import { type UncertainInput, uncertainInputs } from '../ensemble/uncertain-inputs.ts';
import type { JournalOf } from '../work/journal.ts';
import { withRun } from '../work/run-settings.ts';
import { studyCell } from '../work/study-cell.ts';
import { agreedWeather } from './agreement.ts';

export interface ReconcilePlan {
  readonly opened: OpenedFile;
  /** Overrides of every run: those asked for, and the air of the day. */
  readonly set: readonly string[];
  /** The air of the day as overrides, empty where it was not noted. */
  readonly air: readonly string[];
  readonly files: readonly Measured[];
  /** The case as it is, in the air of the day. */
  readonly subject: Case;
  readonly inputs: readonly UncertainInput[];
  readonly count: number;
  readonly cell: number;
  readonly program: string;
}

export interface ReconcileWish {
  readonly opened: OpenedFile;
  readonly set: readonly string[];
  readonly files: readonly Measured[];
  /** Members. */
  readonly count: number;
  /** Length of a cell [m]; left out: that of studies. */
  readonly cell?: number | undefined;
  readonly program: string;
}

/** Members that a study has unless asked otherwise, and at least. */
export const USUAL_COUNT = 64;
export const FEWEST = 16;

/** @throws CaseProblems; an error with exit code 3 where the files do not agree */
export function planReconcile({
  opened,
  set,
  files,
  count,
  cell: asked,
  program,
}: ReconcileWish): ReconcilePlan {
  const weather = agreedWeather(files);
  const air =
    weather === null
      ? []
      : [
          `engine.ambient.pressure=${writeQuantity(weather.pressure, 'pressure', 'mbar', 8)}`,
          `engine.ambient.temperature=${writeQuantity(weather.temperature, 'temperature', 'K', 8)}`,
        ];
  const whole = [...set, ...air];
  const read = caseOf(opened, whole);
  const cell = studyCell(read, asked);
  const subject = withRun(read, { cell });
  return {
    opened,
    set: whole,
    air,
    files,
    subject,
    inputs: uncertainInputs(opened, whole),
    count,
    cell,
    program,
  };
}

/** What its journal is of. */
export function reconcileJournal({ subject, files, inputs, count, program }: ReconcilePlan): JournalOf {
  const { warnings: _, ...of } = subject;
  return { kind: 'reconcile', name: subject.name, program, what: { of, files, inputs, count } };
}
