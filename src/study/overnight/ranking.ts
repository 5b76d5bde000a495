/**
 * The ranking: drafts by their score, highest first, equal ones by their number, so that it never depends on how the
 * study ran. Those that keep to the constraints come before those that do not; then what the screen dropped, by its
 * score there; then what failed and what was left out.
 */

import type { Constraint } from '../work/constraints.ts';
import type { Drafts } from './drafts.ts';
import type { Standing, Tally } from './tally.ts';

/** Numbers of the drafts that have a score, best first. */
export function orderByScore(count: number, score: (index: number) => number | null): number[] {
  const scored: { readonly index: number; readonly score: number }[] = [];
  for (let index = 0; index < count; index += 1) {
    const one = score(index);
    if (one !== null) scored.push({ index, score: one });
  }
  return scored.sort((a, b) => b.score - a.score || a.index - b.index).map(({ index }) => index);
}

/** One line of the ranking. */
export interface RankedDraft {
  /** Null: it has no score. */
  readonly rank: number | null;
  readonly index: number;
  readonly name: string;
  readonly standing: Standing;
  readonly score: number | null;
  readonly screenScore: number | null;
  readonly values: readonly number[];
  readonly readings: readonly (number | null)[];
  /** Names of the constraints it misses. */
  readonly misses: readonly string[];
  /** Why it failed or was left out. */
  readonly reason: string;
}

/** The drafts in their order, each made when it is its turn. Drafts still open are left out. */
export function* rankedDrafts(
  drafts: Drafts,
  tally: Tally,
  constraints: readonly Constraint[],
): Generator<RankedDraft> {
  const missed = (index: number): readonly string[] => {
    if (constraints.length === 0) return [];
    try {
      const draft = drafts.caseAt(index);
      return constraints.filter((one) => one.miss(draft) > 0).map((one) => one.name);
    } catch {
      return [];
    }
  };
  const scored = orderByScore(tally.count, (index) => tally.score(index));
  const misses = new Map(scored.map((index) => [index, missed(index)]));
  const keeps = (index: number): boolean => misses.get(index)?.length === 0;
  const screened = orderByScore(tally.count, (index) =>
    tally.standing(index) === 'screened' ? tally.screenScore(index) : null,
  );
  const standing = (wanted: Standing): number[] =>
    Array.from({ length: tally.count }, (_, index) => index).filter(
      (index) => tally.standing(index) === wanted,
    );
  const order = [
    ...scored.filter(keeps),
    ...scored.filter((index) => !keeps(index)),
    ...screened,
    ...standing('failed'),
    ...standing('outside'),
  ];
  for (const [place, index] of order.entries()) {
    yield {
      rank: place < scored.length ? place + 1 : null,
      index,
      name: drafts.name(index),
      standing: tally.standing(index),
      score: tally.score(index),
      screenScore: tally.screenScore(index),
      values: valuesOf(drafts, index),
      readings: tally.values(index),
      misses: misses.get(index) ?? missed(index),
      reason: tally.reason(index),
    };
  }
}

/** Values of a draft; a pipe file that cannot be read has none. */
function valuesOf(drafts: Drafts, index: number): readonly number[] {
  try {
    return drafts.values(index);
  } catch {
    return drafts.quantities.map(() => Number.NaN);
  }
}
