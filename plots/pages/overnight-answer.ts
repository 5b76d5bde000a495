/** What a study says of its best draft and of its score, in words. */

import { percent } from '../theme/numbers.ts';

/** Decimals that show four figures of the largest value, and no more than the values have: so a column is of one length. */
export function decimalsFor(values: readonly (number | null)[]): number {
  const known = values.filter((value): value is number => value !== null && Number.isFinite(value));
  const largest = Math.max(0, ...known.map(Math.abs));
  const most = largest === 0 ? 0 : Math.max(0, Math.min(6, 3 - Math.floor(Math.log10(largest))));
  const needed = known.map((value) => {
    const [, fraction = ''] = value.toFixed(most).split('.');
    return fraction.replace(/0+$/, '').length;
  });
  return Math.max(0, ...needed);
}

/** Whether the best, the first of the values, is the least or the most that was tried. */
export function rangeEnds(said: string, values: readonly (number | null)[]): readonly string[] {
  const known = values.filter((value): value is number => value !== null);
  const best = values[0] ?? null;
  const [least, most] = [Math.min(...known), Math.max(...known)];
  if (best === null || least === most) return [];
  // A sample seldom strikes the ends themselves.
  const near = 0.02 * (most - least);
  if (best <= least + near) return [`${said} is the least tried`];
  return best >= most - near ? [`${said} is the most tried`] : [];
}

/** What each quantity alone explains, and that the rest is nobody's alone. */
export function importanceText(
  importance: readonly { readonly name: string; readonly share: number }[],
): string {
  const sorted = [...importance].sort((a, b) => b.share - a.share);
  const most = sorted[0];
  if (most === undefined) return '';
  const sum = importance.reduce((total, { share }) => total + share, 0);
  const all = importance.length === 1 ? '' : ` Each alone, the ${importance.length} explain ${percent(sum)}`;
  const rest =
    sum > 0.95 || all === ''
      ? all
      : `${all}; the other ${percent(1 - sum)} lies in how they work together, or in scatter`;
  return `Most on ${most.name}: ${percent(most.share)} of its variation.${rest}${rest === '' ? '' : '.'}`;
}
