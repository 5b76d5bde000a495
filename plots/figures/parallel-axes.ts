/**
 * Many drafts at once: each a line over upright axes, one a varied quantity and the last the score, from the lowest to
 * the highest that was computed. The best few are drawn in the colours of drafts, the rest faint.
 */

import { curve } from '../marks/curve.ts';
import { uprightLine } from '../marks/event-line.ts';
import { words } from '../marks/note.ts';
import { axis, type Bag, baseLayout, type Range, rangeOf } from '../theme/axes.ts';
import { label } from '../theme/escape.ts';
import { heightOf, type Look } from '../theme/look.ts';
import { draftStyle } from './draft-curves.ts';
import type { Figure } from './figure.ts';
import { quantityLabel, type ScoredDraft, type VariedQuantity } from './score-against.ts';

interface UprightAxis {
  readonly name: string;
  readonly range: Range;
}

const valuesOf = (draft: ScoredDraft): number[] => [...draft.values, draft.score ?? 0];

function axesOf(
  drafts: readonly ScoredDraft[],
  varied: readonly VariedQuantity[],
  scoreUnit: string,
): UprightAxis[] {
  const names = [...varied.map(quantityLabel), quantityLabel({ name: 'score', unit: scoreUnit })];
  return names.map((name, i) => ({
    name,
    range: rangeOf(
      drafts.map((draft) => valuesOf(draft)[i]),
      0,
    ),
  }));
}

/** Where a draft passes each axis, 0 at its foot to 1 at its top. */
const placesOn = (axes: readonly UprightAxis[], draft: ScoredDraft): number[] =>
  valuesOf(draft).map((value, i) => {
    const [low, high] = axes[i]?.range ?? [0, 1];
    return high > low ? (value - low) / (high - low) : 0.5;
  });

const digits = (value: number): string => String(Number(value.toPrecision(4)));

const inLines = (name: string): string => name.replace(/(.{9,}?[ .])/g, '$1<br>').replace(/<br>$/, '');

/** Name of an axis below it, lower for every other one where the page is narrow, and its ends. */
function axisWords({ name, range: [low, high] }: UprightAxis, i: number, look: Look): Bag[] {
  const { faint, ink } = look.palette;
  const top = { x: i, xref: 'x', yref: 'paper', y: 1, yanchor: 'bottom', yshift: 2 };
  const foot = { x: i, xref: 'x', yref: 'paper', y: 0, yanchor: 'top' };
  const down = look.narrow && i % 2 === 1 ? -48 : -18;
  return [
    words(digits(high), faint, top, 11),
    words(digits(low), faint, { ...foot, yshift: -2 }, 11),
    words(inLines(name), ink, { ...foot, yshift: down }, look.narrow ? 11 : 12),
  ];
}

export function parallelAxes(
  drafts: readonly ScoredDraft[],
  varied: readonly VariedQuantity[],
  scoreUnit: string,
  best: number,
  look: Look,
): Figure {
  const { palette } = look;
  const scored = drafts.filter((draft) => draft.score !== null);
  const axes = axesOf(scored, varied, scoreUnit);
  const across = axes.map((_, i) => i);
  const rest = scored.slice(best);
  const faint = curve(
    rest.flatMap(() => [...across, null]),
    rest.flatMap((draft) => [...placesOn(axes, draft), null]),
    { color: palette.hairline, width: 0.7 },
    { opacity: Math.max(0.15, Math.min(0.6, 60 / (rest.length + 1))), hoverinfo: 'skip' },
  );
  const front = scored.slice(0, best).map((draft, index) =>
    curve(
      across,
      placesOn(axes, draft),
      { ...draftStyle(index, look), width: 2.2 },
      {
        text: axes.map(() => label(draft.name)),
        hovertemplate: '%{text}<extra></extra>',
      },
    ),
  );
  return {
    data: [faint, ...front.reverse()],
    layout: baseLayout(
      look,
      heightOf(look, 380, 380, 220),
      { t: 30, b: look.narrow ? 112 : 84, l: 40, r: 40 },
      {
        hovermode: 'closest',
        xaxis: axis(look, { range: [-0.02, axes.length - 0.98], visible: false }),
        yaxis: axis(look, { range: [0, 1], visible: false }),
        shapes: across.map((i) => uprightLine({ color: palette.ink, width: 1 }, i)),
        annotations: axes.flatMap((one, i) => axisWords(one, i, look)),
      },
    ),
  };
}
