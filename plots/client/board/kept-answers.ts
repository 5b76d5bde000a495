/** Answers on one mesh, and those that are kept: the base's always, of others the last few. */

import type { BoardSpeed } from '../../../src/board/board-speed.ts';
import type { SweepRow } from '../../../src/findings/row.ts';

/** Whole answers that are kept, those of the base beside them. */
const MOST_KEPT = 8;
/** Drafts of which the rows alone are kept, which are small. */
const MOST_ROWS = 64;

/** An answer on one mesh; speeds that could not be computed are missing and told of. */
export interface Answer {
  readonly key: string;
  readonly cell: number;
  readonly speeds: ReadonlyMap<number, BoardSpeed>;
  readonly failures: ReadonlyMap<number, string>;
}

/** Rows of a draft on the finest mesh that it was computed on. */
export interface KeptRows {
  readonly rows: readonly SweepRow[];
  readonly cell: number;
}

export const rowsOf = ({ speeds }: Pick<Answer, 'speeds'>): readonly SweepRow[] =>
  [...speeds.values()].map(({ row }) => row).sort((a, b) => a.speed_rpm - b.speed_rpm);

export const keyOf = (set: readonly string[]): string => set.join('\n');

export class KeptAnswers {
  /** Key of the base, whose answers are never given up. */
  base = '';
  #kept = new Map<string, Answer>();
  readonly #rows = new Map<string, KeptRows>();

  at(key: string, cell: number): Answer | null {
    return this.#kept.get(`${key}@${cell}`) ?? null;
  }

  keep(answer: Answer): void {
    this.#keepRows(answer);
    const name = `${answer.key}@${answer.cell}`;
    this.#kept.delete(name);
    this.#kept.set(name, answer);
    const others = [...this.#kept].filter(([, { key }]) => key !== this.base);
    for (const [old] of others.slice(0, Math.max(0, others.length - MOST_KEPT))) this.#kept.delete(old);
  }

  /** Rows of a draft, the finest there are; null: it was not computed. */
  rowsFor(key: string): KeptRows | null {
    return this.#rows.get(key) ?? null;
  }

  #keepRows(answer: Answer): void {
    const { key, cell } = answer;
    const had = this.#rows.get(key);
    this.#rows.delete(key);
    this.#rows.set(key, had !== undefined && had.cell < cell ? had : { rows: rowsOf(answer), cell });
    const oldest = [...this.#rows.keys()].find((one) => one !== this.base);
    if (this.#rows.size > MOST_ROWS && oldest !== undefined) this.#rows.delete(oldest);
  }
}
