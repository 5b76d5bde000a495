/**
 * What is computed when the draft stands and nothing else is asked: the base on the same cells, so that like is held against
 * like, and then a preview of each stage that has no answer, such as those that came with the page's address.
 */

import { type KeptAnswers, keyOf } from './kept-answers.ts';
import type { Refinement, Wanted } from './refinement.ts';

export interface IdleWish extends Omit<Wanted, 'cells' | 'set'> {
  readonly base: readonly string[];
  /** Cells of the answer that stands, and of a preview [m]. */
  readonly cell: number;
  readonly previewCell: number;
  readonly stages: readonly (readonly string[])[];
}

export class IdleWork {
  readonly #refinement: Refinement;
  readonly #kept: KeptAnswers;
  readonly #changed: () => void;
  /** Stages that were given up, for they cannot be read or run. */
  readonly #hopeless = new Set<string>();

  /** `changed`: an answer more is kept. */
  constructor(refinement: Refinement, kept: KeptAnswers, changed: () => void) {
    this.#refinement = refinement;
    this.#kept = kept;
    this.#changed = changed;
  }

  run(wish: IdleWish): void {
    const { base, cell, previewCell, stages } = wish;
    if (this.#kept.at(keyOf(base), cell) === null) this.#compute(wish, base, cell);
    else {
      const wants = (set: readonly string[]): boolean =>
        this.#kept.rowsFor(keyOf(set)) === null && !this.#hopeless.has(keyOf(set));
      const next = stages.find(wants);
      if (next !== undefined) this.#compute(wish, next, previewCell);
    }
  }

  #compute(wish: IdleWish, set: readonly string[], cell: number): void {
    this.#refinement.run(
      { set, speeds: wish.speeds, chosen: wish.chosen, cells: [cell] },
      {
        stepped: () => {},
        stood: (answer) => {
          this.#kept.keep(answer);
          this.#changed();
          this.run(wish);
        },
        failed: () => {
          const again = !this.#hopeless.has(keyOf(set));
          this.#hopeless.add(keyOf(set));
          if (again && keyOf(set) !== keyOf(wish.base)) this.run(wish);
        },
      },
    );
  }
}
