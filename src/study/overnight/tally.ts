/**
 * What is kept in memory of each draft: whether and how it ended, its score, and the few readings that tables show.
 * Numbers in typed arrays, absent ones NaN inside them, eight bytes a reading, so that a study of a hundred thousand drafts takes some megabytes;
 * everything else stays in the journal.
 */

import { highest, middleLeadAt } from '../../findings/curve.ts';
import { reading, type SweepRow } from '../../findings/row.ts';
import { unsettledSpeeds } from '../../findings/settled.ts';
import type { Study } from '../../model/study.ts';
import type { DraftResult } from '../work/draft.ts';
import { scoreOf, termName } from '../work/score.ts';

/** How a draft stands. */
export type Standing = 'open' | 'scored' | 'failed' | 'outside' | 'screened';

const standings: readonly Standing[] = ['open', 'scored', 'failed', 'outside', 'screened'];

/** A reading of a draft beside its score. */
export interface Reading {
  readonly name: string;
  readonly unit: string;
  readonly decimals: number;
}

interface ReadingOf extends Reading {
  readonly read: (rows: readonly SweepRow[]) => number | null;
}

function readingsOf(study: Study, target: number): readonly ReadingOf[] {
  return [
    {
      name: `middle before EC at ${target} rpm`,
      unit: 'deg',
      decimals: 1,
      read: (rows) => middleLeadAt(rows, target),
    },
    {
      name: 'best torque',
      unit: 'Nm',
      decimals: 2,
      read: (rows) => highest(rows, 'torque_nm')?.torque_nm ?? null,
    },
    {
      name: 'best power',
      unit: 'kW',
      decimals: 2,
      read: (rows) => highest(rows, 'power_kw')?.power_kw ?? null,
    },
    { name: 'at', unit: 'rpm', decimals: 0, read: (rows) => highest(rows, 'power_kw')?.speed_rpm ?? null },
    {
      name: 'speeds not settled',
      unit: '',
      decimals: 0,
      read: (rows) => unsettledSpeeds(rows).length,
    },
    // A score of one term is that term.
    ...(study.score.length === 1 ? [] : study.score).map((term) => ({
      ...termName(term),
      decimals: 2,
      read: (rows: readonly SweepRow[]) => {
        const one = scoreOf([term], rows);
        return one.ok ? (one.terms[0] ?? null) : null;
      },
    })),
  ];
}

export class Tally {
  readonly readings: readonly Reading[];
  readonly #read: readonly ReadingOf[];
  readonly #standing: Uint8Array;
  readonly #score: Float64Array;
  readonly #screen: Float64Array;
  readonly #values: Float64Array;
  readonly #reasons = new Map<number, string>();
  readonly #study: Study;

  constructor(study: Study, count: number, target: number) {
    this.#study = study;
    this.#read = readingsOf(study, target);
    this.readings = this.#read.map(({ name, unit, decimals }) => ({ name, unit, decimals }));
    this.#standing = new Uint8Array(count);
    this.#score = new Float64Array(count).fill(Number.NaN);
    this.#screen = new Float64Array(count).fill(Number.NaN);
    this.#values = new Float64Array(count * this.#read.length).fill(Number.NaN);
  }

  /** Enters a draft's result; `screen` says that it is of the first pass. */
  take(index: number, result: DraftResult, screen: boolean): void {
    const scored = result.ok ? scoreOf(this.#study.score, result.rows) : result;
    if (!scored.ok) {
      this.mark(index, 'failed', scored.reason);
      return;
    }
    if (screen) {
      this.#screen[index] = scored.score;
      return;
    }
    this.#score[index] = scored.score;
    this.#standing[index] = standings.indexOf('scored');
    if (!result.ok) return;
    for (const [k, { read }] of this.#read.entries())
      this.#values[index * this.#read.length + k] = read(result.rows) ?? Number.NaN;
  }

  mark(index: number, standing: Standing, reason = ''): void {
    this.#standing[index] = standings.indexOf(standing);
    if (reason !== '') this.#reasons.set(index, reason);
  }

  standing(index: number): Standing {
    return standings[this.#standing[index] as number]!;
  }

  /** Null: it has none. */
  score(index: number): number | null {
    return reading(this.#score[index] ?? null);
  }

  /** Score of the first pass; null: it has none. */
  screenScore(index: number): number | null {
    return reading(this.#screen[index] ?? null);
  }

  /** One value a reading, in the order of `readings`. */
  values(index: number): readonly (number | null)[] {
    const from = index * this.#read.length;
    return Array.from(this.#values.subarray(from, from + this.#read.length), reading);
  }

  reason(index: number): string {
    return this.#reasons.get(index) ?? '';
  }

  get count(): number {
    return this.#standing.length;
  }
}
