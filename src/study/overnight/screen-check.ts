/**
 * How often a screen would have dropped a winner: known where every draft went through both passes. Beside the one answer
 * for all drafts, the same is asked of many random halves of them, as if each half had been the study.
 */

import { randomSource } from '../search/random.ts';
import { orderByScore } from './ranking.ts';

export interface ScreenCheck {
  /** Drafts that have both scores. */
  readonly drafts: number;
  /** Place of the winner in the order of the screen, from 1. */
  readonly winnerPlace: number;
  /** Places that the screen keeps. */
  readonly kept: number;
  /** Share of the random halves whose winner the screen would have dropped. */
  readonly droppedShare: number;
  readonly halves: number;
}

const HALVES = 1000;
const SEED = 20;

/** Null: fewer than four drafts have both scores. */
export function checkScreen(
  screen: readonly (number | null)[],
  full: readonly (number | null)[],
  keep: number,
): ScreenCheck | null {
  const both = screen.flatMap((score, k) => {
    const refined = full[k] ?? null;
    return score === null || refined === null ? [] : [{ screen: score, full: refined }];
  });
  if (both.length < 4) return null;
  const random = randomSource(SEED);
  const half = Math.ceil(both.length / 2);
  let dropped = 0;
  for (let round = 0; round < HALVES; round += 1) {
    const chosen = both.map((one) => ({ one, key: random.uniform() }));
    chosen.sort((a, b) => a.key - b.key);
    const place = winnerPlace(chosen.slice(0, half).map(({ one }) => one));
    if (place > Math.ceil(keep * half)) dropped += 1;
  }
  return {
    drafts: both.length,
    winnerPlace: winnerPlace(both),
    kept: Math.ceil(keep * both.length),
    droppedShare: dropped / HALVES,
    halves: HALVES,
  };
}

function winnerPlace(drafts: readonly { readonly screen: number; readonly full: number }[]): number {
  const [winner] = orderByScore(drafts.length, (k) => drafts[k]?.full ?? null);
  const order = orderByScore(drafts.length, (k) => drafts[k]?.screen ?? null);
  return order.indexOf(winner ?? -1) + 1;
}
