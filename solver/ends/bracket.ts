/**
 * Root of a function of one unknown between two bounds, for the ends: a bracket in the slots of one array, which whoever looks
 * for the root narrows trial by trial. The miss of a trial is positive below the root and negative above it.
 *   falsePosition   the straight line between the bounds; where one bound stays twice, its miss is halved (Illinois form)
 *   newton          from the last trial and the slope of the miss there
 * A trial that would lie outside the bounds is put half way between them. Nothing here calls a function of its caller's, so that
 * no number is boxed on its way.
 * Source: Dowell & Jarratt 1971, A modified regula falsi method, BIT 11 (value from memory).
 */

export const BRACKET = {
  low: 0,
  high: 1,
  lowMiss: 2,
  highMiss: 3,
  /** The present trial, its miss and, for Newton's method, the slope of the miss. */
  trial: 4,
  miss: 5,
  slope: 6,
  /** Newton's method has settled with a step that is smaller. */
  enough: 7,
  /** Side that the last trials fell on: 1 low, -1 high. */
  side: 8,
} as const;

export type Bracket = Float64Array;

export function newBracket(): Bracket {
  return new Float64Array(9);
}

/** Begins a search; the bounds, and for false position the misses there, are filled by whoever searches. */
export function beginSearch(b: Bracket): void {
  b[BRACKET.side] = 0;
}

/** Puts the next trial where the straight line between the bounds has its root. */
export function falsePosition(b: Bracket): void {
  const low = b[BRACKET.low];
  const high = b[BRACKET.high];
  const lowMiss = b[BRACKET.lowMiss];
  const highMiss = b[BRACKET.highMiss];
  const p = (low * highMiss - high * lowMiss) / (highMiss - lowMiss);
  b[BRACKET.trial] = p > low && p < high ? p : 0.5 * (low + high);
}

/** Takes the trial and its miss for the bound on its side of the root. */
export function narrow(b: Bracket): void {
  const miss = b[BRACKET.miss];
  if (miss > 0) {
    b[BRACKET.low] = b[BRACKET.trial];
    b[BRACKET.lowMiss] = miss;
    if (b[BRACKET.side] === 1) b[BRACKET.highMiss] *= 0.5;
    b[BRACKET.side] = 1;
  } else {
    b[BRACKET.high] = b[BRACKET.trial];
    b[BRACKET.highMiss] = miss;
    if (b[BRACKET.side] === -1) b[BRACKET.lowMiss] *= 0.5;
    b[BRACKET.side] = -1;
  }
}

/** Puts the next trial where Newton's method has it; true once that changes it by next to nothing, and is the last. */
export function newton(b: Bracket): boolean {
  const trial = b[BRACKET.trial];
  const next = trial - b[BRACKET.miss] / b[BRACKET.slope];
  // Before the bounds are asked: at the root round-off may put the next trial on one of them.
  const last = Math.abs(next - trial) < b[BRACKET.enough];
  const low = b[BRACKET.low];
  const high = b[BRACKET.high];
  b[BRACKET.trial] = last || (next > low && next < high) ? next : 0.5 * (low + high);
  return last;
}
