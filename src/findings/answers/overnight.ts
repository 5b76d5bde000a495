/** What a study of many drafts says of its best one, of the ends of what was tried, and of what the score depends on. */

export interface StudiedQuantity {
  readonly name: string;
  /** Varied over a range, which may be widened; not where it is read from pipes that were given. */
  readonly ranged: boolean;
}

/** A draft by its rank; null: it failed. */
export interface StudiedDraft {
  readonly name: string;
  readonly score: number | null;
  /** One value a quantity. */
  readonly values: readonly (number | null)[];
}

export interface OvernightAnswer<Draft extends StudiedDraft> {
  /** Null: none has a score. */
  readonly winner: Draft | null;
  readonly scored: readonly Draft[];
  readonly failed: number;
  /**
   * Quantities that matter and of which the best is the least or the most tried, by their place in the list. None while the
   * study is unfinished: what it has not come to may lie beyond.
   */
  readonly ends: readonly { readonly quantity: number; readonly end: 'least' | 'most' }[];
  readonly importance: ImportanceAnswer | null;
}

export interface ImportanceAnswer {
  readonly most: { readonly name: string; readonly share: number };
  readonly count: number;
  /**
   * What each alone explains, together, at most all, and what is left to how they work together or to scatter [-]. Where
   * few drafts vary two quantities together their shares overlap, and the sum passes 1.
   */
  readonly alone: number;
  readonly rest: number | null;
}

/** A quantity that accounts for less of the score's variation is not worth a wider range [-]. */
const FELT = 0.03;
/** A sample seldom strikes the ends themselves: this share of what was tried counts as the end [-]. */
const AT_END = 0.02;
/** Quantities that explain more than this leave nothing worth telling [-]. */
const ALL_BUT_ALL = 0.95;

export function overnightAnswer<Draft extends StudiedDraft>(
  drafts: readonly Draft[],
  quantities: readonly StudiedQuantity[],
  importance: readonly { readonly name: string; readonly share: number }[],
  unfinished = false,
): OvernightAnswer<Draft> {
  const scored = drafts.filter(({ score }) => score !== null);
  const matters = (name: string): boolean =>
    (importance.find((one) => one.name === name)?.share ?? 1) >= FELT;
  const ends = quantities.flatMap(({ name, ranged }, quantity) => {
    const end = endOf(scored.map(({ values }) => values[quantity] ?? null));
    return !unfinished && ranged && matters(name) && end !== null ? [{ quantity, end }] : [];
  });
  return {
    winner: scored[0] ?? null,
    scored,
    failed: drafts.length - scored.length,
    ends,
    importance: importanceAnswer(importance),
  };
}

/** Whether the best, the first of the values, is the least or the most that was tried. */
export function endOf(values: readonly (number | null)[]): 'least' | 'most' | null {
  const known = values.filter((value) => value !== null);
  const best = values[0] ?? null;
  const [least, most] = [Math.min(...known), Math.max(...known)];
  if (best === null || least === most) return null;
  const near = AT_END * (most - least);
  if (best <= least + near) return 'least';
  return best >= most - near ? 'most' : null;
}

export function importanceAnswer(
  importance: readonly { readonly name: string; readonly share: number }[],
): ImportanceAnswer | null {
  const most = [...importance].sort((a, b) => b.share - a.share)[0];
  if (most === undefined) return null;
  const alone = Math.min(
    1,
    importance.reduce((total, { share }) => total + share, 0),
  );
  const isShared = importance.length > 1 && alone <= ALL_BUT_ALL;
  return { most, count: importance.length, alone, rest: isShared ? 1 - alone : null };
}
