/** The score of many drafts against one varied quantity; the best few in the colours of drafts, the rest faint. */

import { dots } from '../marks/curve.ts';
import { axis, axisName, axisTitle, type Bag, baseLayout } from '../theme/axes.ts';
import { label } from '../theme/escape.ts';
import { heightOf, type Look } from '../theme/look.ts';
import { draftStyle } from './draft-curves.ts';
import type { Figure } from './figure.ts';

export interface ScoredDraft {
  readonly name: string;
  /** Null: it failed. */
  readonly score: number | null;
  readonly values: readonly number[];
}

export interface VariedQuantity {
  readonly name: string;
  readonly unit: string;
  /** False: it was not varied over a range, but is read from pipes that were given. */
  readonly ranged?: boolean;
}

/** A quantity with its unit, for a label. */
export const quantityLabel = (quantity: VariedQuantity): string =>
  `${label(quantity.name)}${quantity.unit === '' ? '' : ` [${label(quantity.unit)}]`}`;

/** `drafts` in the order of their rank; `best` of them stand out. */
export function scoreAgainst(
  drafts: readonly ScoredDraft[],
  quantity: VariedQuantity,
  index: number,
  scoreName: string,
  best: number,
  look: Look,
): Figure {
  const { palette } = look;
  const scored = drafts.filter((draft) => draft.score !== null);
  const points = (chosen: readonly ScoredDraft[], marker: Bag): Bag =>
    dots(
      chosen.map((draft) => draft.values[index] ?? null),
      chosen.map((draft) => draft.score),
      marker,
      {
        text: chosen.map((draft) => label(draft.name)),
        hovertemplate: '%{text}: %{y:.4g}<extra></extra>',
      },
    );
  const front = scored.slice(0, best);
  const colours = front.map((_, rank) => draftStyle(rank, look).color);
  return {
    data: [
      points(scored.slice(best), { size: 5, color: palette.hairline, opacity: 0.7 }),
      points(front, { size: 9, color: colours, opacity: 1 }),
    ],
    layout: baseLayout(
      look,
      heightOf(look, 250, 230, 135),
      { t: 34, b: 46, l: 48, r: 14 },
      {
        hovermode: 'closest',
        xaxis: axis(look, {
          nticks: 6,
          title: axisTitle(look, quantityLabel(quantity)),
        }),
        yaxis: axis(look, { nticks: 5 }),
        annotations: [axisName(look, label(scoreName))],
      },
    ),
  };
}
