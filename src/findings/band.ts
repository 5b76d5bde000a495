/**
 * Ranges of speed: where a curve keeps a share of its height, and where the wave lands.
 *
 * There is one band of a share. Its edges lie where the straight pieces between the computed speeds cross the level; it is
 * unbroken, so a second hump does not count; and an edge at which the computed speeds end, or beyond which nothing could
 * be read, before the curve has fallen is open: the band goes on for all that is known. Its level is the share of the best
 * computed value, or of the value at a speed that the band is asked about.
 */

import { type Curve, curveOf, highest, valueAt } from './curve.ts';
import { lands } from './landing.ts';
import type { NumberColumn, SweepRow } from './row.ts';

/** Speeds from one to another [rpm]. */
export interface SpeedSpan {
  readonly from: number;
  readonly to: number;
}

export interface Band extends SpeedSpan {
  /** The curve is still held where the computed speeds end. */
  readonly openBelow: boolean;
  readonly openAbove: boolean;
}

/** Share of the best that counts as held [-]. */
export const HELD_SHARE = 0.9;

/** Edges of a band are no surer than this [rpm]. Judgement, no source. */
export const EDGE_STEP = 50;

/** Speeds about a speed at which a curve stays at or above a level; null: it is not there, or the level is not above 0. */
export function heldAbout(curve: Curve, about: number, level: number): Band | null {
  const here = valueAt(curve, about);
  if (here === null || !(level > 0) || here < level) return null;
  const edge = (way: 1 | -1): { readonly at: number; readonly open: boolean } => {
    const onward = curve.filter(([speed]) => (speed - about) * way > 0);
    let [at, value]: readonly [number, number] = [about, here];
    for (const [speed, next] of way > 0 ? onward : onward.reverse()) {
      if (next === null) break;
      if (next < level) return { at: at + ((value - level) / (value - next)) * (speed - at), open: false };
      [at, value] = [speed, next];
    }
    return { at, open: true };
  };
  const [below, above] = [edge(-1), edge(1)];
  return { from: below.at, to: above.at, openBelow: below.open, openAbove: above.open };
}

/** The band of a column: about its best, or about a given speed with the level its value there. */
export function bandOf(
  rows: readonly SweepRow[],
  name: NumberColumn,
  { share = HELD_SHARE, about }: { readonly share?: number; readonly about?: number } = {},
): Band | null {
  const curve = curveOf(rows, name);
  const middle = about ?? highest(rows, name)?.speed_rpm ?? null;
  const top = middle === null ? null : valueAt(curve, middle);
  return middle === null || top === null ? null : heldAbout(curve, middle, share * top);
}

/** Width of a band [rpm]. */
export const widthOf = (band: SpeedSpan | null): number | null =>
  band === null ? null : band.to - band.from;

/** Unbroken runs of things in order that fit, from the place of the first to that of the last; the widest first. */
export function runsOf<Thing>(
  things: readonly Thing[],
  fits: (thing: Thing) => boolean,
  place: (thing: Thing) => number,
): readonly SpeedSpan[] {
  const runs: { from: number; to: number }[] = [];
  let open: { from: number; to: number } | null = null;
  for (const thing of things) {
    if (!fits(thing)) {
      open = null;
      continue;
    }
    const at = place(thing);
    if (open === null) {
      open = { from: at, to: at };
      runs.push(open);
    } else open.to = at;
  }
  return runs.sort((a, b) => b.to - b.from - (a.to - a.from));
}

/** Runs of neighbouring computed speeds at which the wave lands, the widest first. */
export const landingBands = (rows: readonly SweepRow[]): readonly SpeedSpan[] =>
  runsOf(rows, lands, (row) => row.speed_rpm);
