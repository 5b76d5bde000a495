/** What a study says of its best draft and of its score, in words. */

import type { ImportanceAnswer } from '../../src/findings/answers/overnight.ts';
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

/** What each quantity alone explains, and that the rest is nobody's alone. */
export function importanceText({ most, count, alone, rest }: ImportanceAnswer): string {
  const together = count === 1 ? '' : ` Each alone, the ${count} explain ${percent(alone)}`;
  const left =
    rest === null ? '' : `; the other ${percent(rest)} lies in how they work together, or in scatter`;
  return `Most on ${most.name}: ${percent(most.share)} of its variation.${together}${left}${together === '' ? '' : '.'}`;
}
