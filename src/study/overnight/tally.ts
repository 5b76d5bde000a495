/**
 * What is kept in memory of each draft: whether and how it ended, its score, and the few readings that tables show.
 * Numbers in typed arrays, eight bytes a reading, so that a study of a hundred thousand drafts takes some megabytes;
 * everything else stays in the journal.
 */

import type { Study } from '../../model/study.ts';
import type { DraftResult } from '../work/draft.ts';
import { curveOf, type ReadRow, scoreOf, termName, valueAt } from '../work/score.ts';

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
  readonly read: (rows: readonly ReadRow[]) => number;
}

const highest = (rows: readonly ReadRow[], column: 'torque_nm' | 'power_kw'): readonly [number, number] =>
  curveOf(rows, column).reduce((a, b) => (b[1] > a[1] ? b : a));

function readingsOf(study: Study, target: number): readonly ReadingOf[] {
  return [
    {
      name: `middle before EC at ${target} rpm`,
      unit: 'deg',
      decimals: 1,
      // The port closes at the same angle at all speeds.
      read: (rows) =>
        Number(rows[0]?.exhaust_closes_deg ?? Number.NaN) -
        valueAt(curveOf(rows, 'plugback_centroid_deg'), target),
    },
    { name: 'best torque', unit: 'Nm', decimals: 2, read: (rows) => highest(rows, 'torque_nm')[1] },
    { name: 'best power', unit: 'kW', decimals: 2, read: (rows) => highest(rows, 'power_kw')[1] },
    { name: 'at', unit: 'rpm', decimals: 0, read: (rows) => highest(rows, 'power_kw')[0] },
    {
      name: 'speeds not settled',
      unit: '',
      decimals: 0,
      read: (rows) => rows.filter((row) => row.settled !== true).length,
    },
    // A score of one term is that term.
    ...(study.score.length === 1 ? [] : study.score).map((term) => ({
      ...termName(term),
      decimals: 2,
      read: (rows: readonly ReadRow[]) => {
        const one = scoreOf([term], rows);
        return one.ok ? (one.terms[0] as number) : Number.NaN;
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
      this.#values[index * this.#read.length + k] = read(result.rows);
  }

  mark(index: number, standing: Standing, reason = ''): void {
    this.#standing[index] = standings.indexOf(standing);
    if (reason !== '') this.#reasons.set(index, reason);
  }

  standing(index: number): Standing {
    return standings[this.#standing[index] as number] as Standing;
  }

  /** NaN: it has none. */
  score(index: number): number {
    return this.#score[index] as number;
  }

  /** Score of the first pass; NaN: it has none. */
  screenScore(index: number): number {
    return this.#screen[index] as number;
  }

  /** One value a reading, in the order of `readings`. */
  values(index: number): readonly (number | null)[] {
    const from = index * this.#read.length;
    return Array.from(this.#values.subarray(from, from + this.#read.length), (value) =>
      Number.isFinite(value) ? value : null,
    );
  }

  reason(index: number): string {
    return this.#reasons.get(index) ?? '';
  }

  get count(): number {
    return this.#standing.length;
  }
}
