/**
 * How a number that is not known exactly may lie, and the way between it and a normal score z: the number below which the
 * share Φ(z) of all lies. Scores are what members are drawn in and what correlations are stated in, so that inputs of any
 * shape go together alike (Iman & Conover, Commun. Statist. B 11 (1982) 311, who rank by such scores).
 *
 *   normal       x = mean + sd z
 *   uniform      x = from + (to - from) Φ(z)
 *   log-uniform  ln x likewise, for factors that are as likely halved as doubled
 *
 * What the reader of case files refuses is cut off: Φ(z) then runs over the shares that are left.
 */

import { normalScore, normalShare } from '../search/normal.ts';

export type Spread =
  | { readonly shape: 'normal'; readonly mean: number; readonly sd: number }
  | { readonly shape: 'uniform'; readonly from: number; readonly to: number }
  | { readonly shape: 'log-uniform'; readonly from: number; readonly to: number };

/** A spread and the shares of it between which values are allowed. */
export interface CutSpread {
  readonly spread: Spread;
  readonly shares: readonly [low: number, high: number];
}

/** Whole shares that are kept off 0 and 1, where a normal has no end. */
const END = 1e-9;

/** The number below which a share in (0, 1) of all lies, in the unit of the spread. */
export function valueAtShare(spread: Spread, share: number): number {
  switch (spread.shape) {
    case 'normal':
      return spread.mean + spread.sd * normalScore(Math.min(1 - END, Math.max(END, share)));
    case 'uniform':
      return spread.from + share * (spread.to - spread.from);
    case 'log-uniform':
      return spread.from * Math.exp(share * Math.log(spread.to / spread.from));
  }
}

/** The share of all that lies below a number [-]. */
export function shareBelow(spread: Spread, value: number): number {
  const inside = (share: number): number => Math.min(1, Math.max(0, share));
  switch (spread.shape) {
    case 'normal':
      return normalShare((value - spread.mean) / spread.sd);
    case 'uniform':
      return inside((value - spread.from) / (spread.to - spread.from));
    case 'log-uniform':
      return value > 0 ? inside(Math.log(value / spread.from) / Math.log(spread.to / spread.from)) : 0;
  }
}

/** The value of a normal score. */
export function valueOfScore({ spread, shares: [low, high] }: CutSpread, score: number): number {
  return valueAtShare(spread, low + normalShare(score) * (high - low));
}

/** The normal score of a value; one at or beyond the end of its range gets the score of a share of 1e-6. */
export function scoreOfValue({ spread, shares: [low, high] }: CutSpread, value: number): number {
  const share = (shareBelow(spread, value) - low) / (high - low);
  return normalScore(Math.min(1 - 1e-6, Math.max(1e-6, share)));
}
