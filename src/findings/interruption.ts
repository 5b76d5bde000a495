/**
 * What the returning wave does while the transfers are open, before the plug-back: how deep and how long the suction is, and
 * whether a compression comes in between. A compression is a front, a rise within a few degrees; the slow rise out of the
 * diffuser's suction is none. The plug-back's own front is left out: what is looked at ends some degrees before the wave
 * traced to the start of the baffle is back. Angles are degrees after exhaust opening on an even grid that wraps round.
 */

import type { ReturningWave } from './plug-back.ts';

export interface Compression {
  /** Rise of the front [Pa], and where it is halfway up [deg]. */
  readonly rise: number;
  readonly deg: number;
}

export interface Suction {
  /** Depth below the surroundings [Pa]. */
  readonly depth: number;
  /** Degrees about its lowest point for which it is at least half as deep, and where they end [deg]. */
  readonly length: number;
  readonly endDeg: number;
}

/** Longest a front takes to rise [deg]: on cells of 20 mm at 8 000 rpm a shock is smeared over about 8. */
const FRONT_DEG = 12;
/** The plug-back's own front begins so long before the traced return of the start of the baffle, smeared by the mesh [deg]. */
const BEFORE_DEG = 12;
/** An onset up to so long before that return is the plug-back's own [deg]. */
const OWN_DEG = 30;
/** A front of this share of the suction's depth, and of this rise, spoils it [-, Pa]. Judgement, no source. */
const SPOILS = 0.4;
const LEAST_RISE = 1e4;
/** A suction that ends so near to the front is ended by it [deg]. */
const ENDED_DEG = 8;

/**
 * The highest front that arrives from transfer opening to transfer closing and before the plug-back; null: nothing rises, or
 * the plug-back is there first.
 */
export function strongestCompression(
  { pressure, stepDeg }: ReturningWave,
  span: {
    readonly opens: number;
    readonly closes: number;
    /** Traced return of the start of the baffle, and the onset of the plug-back, where there are any. */
    readonly baffle: number | null;
    readonly onset: number | null;
  },
): Compression | null {
  const n = pressure.length;
  const at = (k: number): number => pressure[((k % n) + n) % n]!;
  const width = Math.round(FRONT_DEG / stepDeg);
  const first = Math.round(span.opens / stepDeg);
  const baffle = span.baffle ?? Number.POSITIVE_INFINITY;
  const onset = span.onset !== null && span.onset > baffle - OWN_DEG ? span.onset : baffle;
  const last = Math.floor(Math.min(span.closes, Math.min(baffle, onset) - BEFORE_DEG) / stepDeg);
  let best: { readonly foot: number; readonly head: number } | null = null;
  for (let head = first + 1; head <= last; head++) {
    let foot = head;
    for (let k = Math.max(first, head - width); k < head; k++) if (at(k) < at(foot)) foot = k;
    if (at(head) - at(foot) > (best === null ? 0 : at(best.head) - at(best.foot))) best = { foot, head };
  }
  if (best === null) return null;
  const middle = 0.5 * (at(best.foot) + at(best.head));
  let half = best.foot;
  while (half < best.head && at(half) < middle) half++;
  return { rise: at(best.head) - at(best.foot), deg: half * stepDeg };
}

/** The suction about its lowest point; null: the wave is not below the surroundings there. */
export function suctionAbout(
  { pressure, stepDeg, reference }: ReturningWave,
  lowestDeg: number,
): Suction | null {
  const n = pressure.length;
  const depth = (k: number): number => reference - pressure[((k % n) + n) % n]!;
  const low = Math.round(lowestDeg / stepDeg);
  const most = depth(low);
  if (!(most > 0)) return null;
  let [first, last] = [low, low];
  while (first > low - n / 2 && depth(first - 1) >= most / 2) first--;
  while (last < low + n / 2 && depth(last + 1) >= most / 2) last++;
  return { depth: most, length: (last - first) * stepDeg, endDeg: last * stepDeg };
}

/** What a compression does to the suction: nothing worth naming, a dent, or its end. */
export function effectOn(
  suction: Suction | null,
  compression: Compression | null,
): 'nothing' | 'dents' | 'ends' {
  if (suction === null || compression === null) return 'nothing';
  const { rise, deg } = compression;
  if (rise < Math.max(LEAST_RISE, SPOILS * suction.depth)) return 'nothing';
  return Math.abs(suction.endDeg - deg) <= ENDED_DEG ? 'ends' : 'dents';
}
