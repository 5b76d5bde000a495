/** A search as it went on: what each draft gave, and the best so far. */

import { curve, dots } from '../marks/curve.ts';
import { axis, axisName, axisTitle, type Bag, baseLayout } from '../theme/axes.ts';
import { label } from '../theme/escape.ts';
import { heightOf, type Look } from '../theme/look.ts';
import type { Figure } from './figure.ts';

/** A draft of a search: what it was judged by, and what it gave. */
export interface SearchedDraft {
  readonly evaluation: number;
  /** What the search went by; null: it failed or was forbidden. */
  readonly score: number | null;
  /** What is drawn; null: it failed or was forbidden. */
  readonly value: number | null;
  /** The wave lands in its window. */
  readonly lands: boolean;
}

/** Value of each draft of a search as a dot, hollow where its wave lands outside, and that of the best so far as a line. */
export function searchHistory(history: readonly SearchedDraft[], name: string, look: Look): Figure {
  const { palette } = look;
  let best: SearchedDraft | null = null;
  const front = history.map((one) => {
    if (one.score !== null && (best === null || one.score > (best.score ?? 0))) best = one;
    return best?.value ?? null;
  });
  const hovertemplate = '%{y:.4g}';
  const drafts = (landing: boolean, more: Bag = {}): Bag => {
    const chosen = history.filter(({ lands }) => lands === landing);
    return dots(
      chosen.map((one) => one.evaluation),
      chosen.map((one) => one.value),
      { size: 6, color: palette.faint, ...more },
      { name: landing ? 'lands' : 'lands outside', hovertemplate },
    );
  };
  return {
    data: [
      drafts(true),
      drafts(false, { symbol: 'circle-open', line: { width: 1.2 } }),
      curve(
        history.map((one) => one.evaluation),
        front,
        { color: palette.line.torque, width: 2.4, shape: 'hv' },
        { name: 'best so far', hovertemplate },
      ),
    ],
    layout: baseLayout(
      look,
      heightOf(look, 290, 260, 180),
      { t: 34, b: 46, l: 50, r: 14 },
      {
        xaxis: axis(look, {
          nticks: 8,
          title: axisTitle(look, 'Drafts computed'),
        }),
        yaxis: axis(look, { nticks: 6, rangemode: 'tozero' }),
        annotations: [axisName(look, label(name))],
      },
    ),
  };
}
