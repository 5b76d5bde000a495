/** What the workers of a board do: one pure function a kind, from plain data to plain data. */

import type { EngineState } from '../engine/run/state.ts';
import type { Case } from '../model/case.ts';
import { runGroup, type SpeedFailure } from '../study/work/run-sweep.ts';
import { checkReport } from '../timing/rules/report.ts';
import type { RuleFinding } from '../timing/rules/rule.ts';
import { type BoardSpeed, boardSpeed } from './board-speed.ts';
import { type BoardCase, type Desk, openDesk, readDesk } from './desk.ts';
import { type Previewed, preview } from './preview.ts';
import { type Turn, turnOf } from './turn.ts';

interface AtCell {
  /** Changes of the case, `path=value`. */
  readonly set: readonly string[];
  /** Cell length [m]. */
  readonly cell: number;
}

export type BoardJob =
  | (AtCell & { readonly kind: 'preview'; readonly rpm: number; readonly start: EngineState | null })
  | (AtCell & { readonly kind: 'group'; readonly speeds: readonly number[] })
  | (AtCell & { readonly kind: 'turn'; readonly rpm: number; readonly start: EngineState })
  | (AtCell & { readonly kind: 'rules' });

export interface Group {
  readonly speeds: readonly BoardSpeed[];
  readonly failures: readonly SpeedFailure[];
}

export interface BoardResults {
  readonly preview: Previewed;
  readonly group: Group;
  readonly turn: Turn;
  readonly rules: readonly RuleFinding[];
}

export type BoardResult<Kind extends BoardJob['kind']> = BoardResults[Kind];

/** Does the jobs of one board; keeps the case as it last was, which several jobs in a row have in common. */
export class BoardBench {
  readonly #desk: Desk;
  #set: readonly string[] = [];
  #subject: Case | null = null;

  constructor(carried: BoardCase) {
    this.#desk = openDesk(carried);
  }

  /** @throws MarchFailure of a turn, and whatever a job throws that is no answer */
  run(job: BoardJob): BoardResults[BoardJob['kind']] {
    const subject = this.#subjectOf(job);
    if (job.kind === 'preview') return preview(subject, job.rpm, job.start);
    if (job.kind === 'turn') return turnOf(subject, job.rpm, job.start);
    if (job.kind === 'rules') return checkReport(subject).rules;
    const { records, failures } = runGroup({ subject, speeds: job.speeds });
    return { speeds: records.map(boardSpeed), failures };
  }

  #subjectOf({ set, cell }: AtCell): Case {
    if (this.#subject === null || set.join('\n') !== this.#set.join('\n')) {
      const reading = readDesk(this.#desk, set);
      if (!reading.ok) throw new Error(reading.words);
      this.#subject = reading.subject;
      this.#set = set;
    }
    return { ...this.#subject, run: { ...this.#subject.run, cell } };
  }
}
