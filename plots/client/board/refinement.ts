/**
 * All speeds computed afresh on one mesh after another, as a sweep does it: in the same groups of neighbours, each from the
 * same start, so that the rows are a sweep's. Groups about the chosen speed come first; that changes no row.
 */

import type { BoardSpeed } from '../../../src/board/board-speed.ts';
import { neighbours } from '../../../src/study/work/run-sweep.ts';
import type { Crew } from './crew.ts';
import { type Answer, keyOf } from './kept-answers.ts';

/** What is refined: changes of the case, its speeds [rpm], and the cells one after another [m]. */
export interface Wanted {
  readonly set: readonly string[];
  readonly speeds: readonly number[];
  readonly chosen: number;
  readonly cells: readonly number[];
}

export interface Refined {
  /** A group more is done. */
  stepped(): void;
  /** All speeds stand on one mesh; `last`: no finer one follows. */
  stood(answer: Answer, last: boolean): void;
  failed(message: string): void;
}

export class Refinement {
  /** How far the present mesh is; null: none is under way. */
  under: { readonly cell: number; readonly done: number; readonly of: number } | null = null;
  readonly #crew: Crew;
  #generation = 0;

  constructor(crew: Crew) {
    this.#crew = crew;
  }

  breakOff(): void {
    this.#generation++;
    this.under = null;
    this.#crew.breakOff();
  }

  run(wanted: Wanted, to: Refined): void {
    const generation = this.#generation;
    const { set, speeds, chosen, cells } = wanted;
    const [cell, ...finer] = cells;
    if (cell === undefined) return;
    const found = { speeds: new Map<number, BoardSpeed>(), failures: new Map<number, string>() };
    this.under = { cell, done: 0, of: speeds.length };
    to.stepped();
    const nearFirst = [...neighbours(speeds)].sort((a, b) => distance(a, chosen) - distance(b, chosen));
    for (const group of nearFirst)
      this.#crew.do(
        () => ({ kind: 'group', set, cell, speeds: group }),
        (result) => {
          if (generation !== this.#generation) return;
          for (const speed of result.speeds) found.speeds.set(speed.row.speed_rpm, speed);
          for (const { speedRpm, reason } of result.failures) found.failures.set(speedRpm, reason);
          const done = found.speeds.size + found.failures.size;
          this.under = done < speeds.length ? { cell, done, of: speeds.length } : null;
          if (done < speeds.length) {
            to.stepped();
            return;
          }
          to.stood({ key: keyOf(set), cell, ...found }, finer.length === 0);
          this.run({ ...wanted, cells: finer }, to);
        },
        to.failed,
      );
  }
}

const distance = (group: readonly number[], rpm: number): number =>
  Math.min(...group.map((one) => Math.abs(one - rpm)));
