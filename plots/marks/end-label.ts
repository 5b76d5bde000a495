/** Names at the right-hand ends of lines, pushed apart where they would touch. */

import type { Bag, Range } from '../theme/axes.ts';
import type { Look } from '../theme/look.ts';
import { words } from './note.ts';

/** Push places apart so that neighbours keep a distance, moving them as little as a single pass can. */
export function pushApart(places: readonly number[], distance: number, low: number, high: number): number[] {
  const order = places.map((place, index) => ({ place, index })).sort((a, b) => a.place - b.place);
  let floor = low;
  for (const entry of order) {
    entry.place = Math.max(entry.place, floor);
    floor = entry.place + distance;
  }
  let roof = high;
  for (const entry of [...order].reverse()) {
    entry.place = Math.min(entry.place, roof);
    roof = entry.place - distance;
  }
  const result = [...places];
  for (const entry of order) result[entry.index] = entry.place;
  return result;
}

export interface EndLabel {
  readonly text: string;
  readonly colour: string;
  readonly y: number | null | undefined;
}

/** Names at the right-hand ends of lines. `heightPx` is that of the plot they belong to. */
export function endLabels(
  look: Look,
  entries: readonly EndLabel[],
  place: {
    readonly range: Range;
    readonly heightPx: number;
    readonly yref?: string;
    readonly linePx?: number;
    /** From the plot's edge [px]. */
    readonly xshift?: number;
  },
): Bag[] {
  const shown = entries.filter(
    (entry): entry is EndLabel & { y: number } => typeof entry.y === 'number' && Number.isFinite(entry.y),
  );
  const perPx = (place.range[1] - place.range[0]) / place.heightPx;
  const ys = pushApart(
    shown.map((entry) => entry.y),
    (place.linePx ?? 14) * perPx,
    place.range[0] + 4 * perPx,
    place.range[1] - 4 * perPx,
  );
  const size = look.narrow ? 11 : 12;
  return shown.map(({ text, colour }, index) =>
    words(
      text,
      colour,
      {
        xref: 'paper',
        x: 1,
        xanchor: 'left',
        xshift: place.xshift ?? 5,
        yref: place.yref ?? 'y',
        y: ys[index],
        yanchor: 'middle',
        align: 'left',
      },
      size,
    ),
  );
}

/** The last value of a curve, where its name stands. */
export const lastOf = (values: readonly (number | null)[]): number | null =>
  values.findLast((value) => value !== null) ?? null;
