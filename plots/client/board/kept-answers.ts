/** Answers on one mesh, and those that are kept: the base's always, of others the last few. */

import type { BoardSpeed } from '../../../src/board/board-speed.ts';
import type { SweepRow } from '../../../src/findings/row.ts';

/** Whole answers that are kept, those of the base beside them. */
const MOST_KEPT = 8;

/** An answer on one mesh; speeds that could not be computed are missing and told of. */
export interface Answer {
  readonly key: string;
  readonly cell: number;
  readonly speeds: ReadonlyMap<number, BoardSpeed>;
  readonly failures: ReadonlyMap<number, string>;
}

export const rowsOf = ({ speeds }: Pick<Answer, 'speeds'>): readonly SweepRow[] =>
  [...speeds.values()].map(({ row }) => row).sort((a, b) => a.speed_rpm - b.speed_rpm);

export const keyOf = (set: readonly string[]): string => set.join('\n');

export class KeptAnswers {
  /** Key of the base, whose answers are never given up. */
  base = '';
  #kept = new Map<string, Answer>();

  at(key: string, cell: number): Answer | null {
    return this.#kept.get(`${key}@${cell}`) ?? null;
  }

  keep(answer: Answer): void {
    const name = `${answer.key}@${answer.cell}`;
    this.#kept.delete(name);
    this.#kept.set(name, answer);
    const others = [...this.#kept].filter(([, { key }]) => key !== this.base);
    for (const [old] of others.slice(0, Math.max(0, others.length - MOST_KEPT))) this.#kept.delete(old);
  }

  /** The finest answer of a draft. */
  finest(key: string): Answer | null {
    const all = [...this.#kept.values()].filter((one) => one.key === key);
    return all.sort((a, b) => a.cell - b.cell)[0] ?? null;
  }
}
