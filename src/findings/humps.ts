/**
 * Which part of a returning wave is the plug-back. A wave rises above the surroundings in humps; two humps are two waves if
 * the dip between them is a real minimum. With the dip d and the lesser hump h, both above the surroundings, its persistence is
 *   p = 1 - d/h,
 * 0 on a shoulder, 1 where the wave falls back to the surroundings. Of two equal bell curves as wide as each other p is 1/2
 * when they stand 1.4 of their widths at half height apart, 1/4 and 3/4 at 1.2 and 1.7: below a quarter the echoes of
 * one baffle, above three quarters those of two places. In between the other hump counts in part,
 *   w = (3/4 - p)/(1/2), from 0 to 1,
 * so that the middle and the feet follow the trace without a jump while two waves merge. w at a place is taken from the trace
 * between the crest and that place alone. Likewise a wave that stands apart counts in full if it is as high as the
 * highest, and not at all below four fifths of it: where one takes over from the other, both count.
 */

/** Height above the surroundings by sample; negative below them. */
export type Height = (sample: number) => number;

/** Persistence of the dip up to which a hump counts in full, and from which on it does not count [-]. */
const ONE = 0.25;
const TWO = 0.75;
/** Share of the highest crest from which on a wave apart counts in full [-]; a crest with this share is as good as it. */
export const AS_HIGH = 0.97;
/** Share of the highest crest up to which a wave apart does not count [-]. */
const LESSER = 0.8;

export interface Humps {
  /** Feet, in samples and parts of one. */
  readonly from: number;
  readonly to: number;
  /** How far a sample counts, 0 to 1. */
  readonly weight: (sample: number) => number;
}

export interface Crest {
  /** Sample on top. */
  readonly at: number;
  /** Its share of the highest [-]. */
  readonly share: number;
}

/**
 * The humps that count.
 * @param crests the highest first, each above the surroundings
 * @param most samples to go from a crest at most
 */
export function humpsOf(height: Height, crests: readonly Crest[], most: number): Humps {
  const parts = crests.map(({ at, share }) => ({
    at,
    counts: between(LESSER, AS_HIGH, share),
    before: side(height, at, -1, most),
    after: side(height, at, 1, most),
  }));
  let from = Number.NaN;
  let to = Number.NaN;
  for (const { at, counts, before, after } of parts) {
    const [start, end] = [at - before.reach, at + after.reach];
    from = Number.isNaN(from) ? start : from + counts * Math.min(0, start - from);
    to = Number.isNaN(to) ? end : to + counts * Math.max(0, end - to);
  }
  const weight = (sample: number): number =>
    parts.reduce((best, { at, counts, before, after }) => {
      const weights = sample < at ? before.weights : after.weights;
      return Math.max(best, counts * (weights[Math.abs(sample - at)] ?? 0));
    }, 0);
  return { from, to, weight };
}

interface Side {
  /** Weights by the distance from the crest, and their sum up to the foot [samples]. */
  readonly weights: readonly number[];
  readonly reach: number;
}

function side(height: Height, crest: number, step: 1 | -1, most: number): Side {
  const top = height(crest);
  const weights = [1];
  let reach = 0;
  let low = top;
  let high = top;
  let apart = 0;
  let last = top;
  for (let j = 1; j <= most; j++) {
    const here = height(crest + step * j);
    const before = weights[j - 1]!;
    if (here <= 0) {
      reach += (before * last) / (last - here);
      break;
    }
    if (here < low) {
      low = here;
      high = here;
    } else high = Math.max(high, here);
    apart = Math.max(apart, 1 - low / Math.min(top, high));
    const weight = 1 - between(ONE, TWO, apart);
    weights.push(weight);
    reach += 0.5 * (before + weight);
    last = here;
  }
  return { weights, reach };
}

/** 0 at and below the one, 1 at and above the other. */
const between = (none: number, all: number, value: number): number =>
  Math.max(0, Math.min(1, (value - none) / (all - none)));
