/**
 * Figures of a study of many drafts: the score against one varied quantity, all quantities as parallel axes, and the
 * score as the search went on. The best few are drawn in the colours of drafts, the rest faint.
 */

import { axis, axisName, type Bag, baseLayout, rangeOf } from '../theme/axes.ts';
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

const named = (quantity: VariedQuantity): string =>
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
  const points = (chosen: readonly ScoredDraft[], more: Bag): Bag => ({
    type: 'scatter',
    mode: 'markers',
    x: chosen.map((draft) => draft.values[index] ?? null),
    y: chosen.map((draft) => draft.score),
    text: chosen.map((draft) => label(draft.name)),
    hovertemplate: '%{text}: %{y:.4g}<extra></extra>',
    ...more,
  });
  return {
    data: [
      points(scored.slice(best), { marker: { size: 5, color: palette.hairline, opacity: 0.7 } }),
      points(scored.slice(0, best), {
        marker: {
          size: 9,
          color: scored.slice(0, best).map((_, rank) => draftStyle(rank, look).color),
          opacity: 1,
        },
      }),
    ],
    layout: baseLayout(
      look,
      heightOf(look, 250, 230, 135),
      { t: 34, b: 46, l: 48, r: 14 },
      {
        hovermode: 'closest',
        xaxis: axis(look, {
          nticks: 6,
          title: { text: named(quantity), font: { size: 12, color: palette.faint }, standoff: 6 },
        }),
        yaxis: axis(look, { nticks: 5 }),
        annotations: [axisName(look, label(scoreName))],
      },
    ),
  };
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
  const values = (draft: ScoredDraft): number[] => [...draft.values, draft.score ?? 0];
  const names = [...varied.map(named), named({ name: 'score', unit: scoreUnit })];
  const spans = names.map((_, i) =>
    rangeOf(
      scored.map((draft) => values(draft)[i]),
      0,
    ),
  );
  const places = (draft: ScoredDraft): number[] =>
    values(draft).map((value, i) => {
      const [low, high] = spans[i] ?? [0, 1];
      return high > low ? (value - low) / (high - low) : 0.5;
    });
  const across = names.map((_, i) => i);
  const rest = scored.slice(best);
  const faint: Bag = {
    type: 'scatter',
    mode: 'lines',
    x: rest.flatMap(() => [...across, null]),
    y: rest.flatMap((draft) => [...places(draft), null]),
    line: { color: palette.hairline, width: 0.7 },
    opacity: Math.max(0.15, Math.min(0.6, 60 / (rest.length + 1))),
    hoverinfo: 'skip',
  };
  const ends = names.flatMap((name, i) => {
    const [low, high] = spans[i] ?? [0, 1];
    const shared = {
      x: i,
      xref: 'x',
      yref: 'paper',
      showarrow: false,
      font: { size: 11, color: palette.faint },
    };
    return [
      { ...shared, y: 1, yanchor: 'bottom', text: digits(high), yshift: 2 },
      { ...shared, y: 0, yanchor: 'top', text: digits(low), yshift: -2 },
      {
        ...shared,
        y: 0,
        yanchor: 'top',
        yshift: look.narrow && i % 2 === 1 ? -48 : -18,
        text: wrapped(name),
        font: { size: look.narrow ? 11 : 12, color: palette.ink },
      },
    ];
  });
  return {
    data: [
      faint,
      ...scored
        .slice(0, best)
        .map((draft, index) => ({
          type: 'scatter',
          mode: 'lines',
          x: across,
          y: places(draft),
          line: { ...draftStyle(index, look), width: 2.2 },
          text: names.map(() => label(draft.name)),
          hovertemplate: '%{text}<extra></extra>',
        }))
        .reverse(),
    ],
    layout: baseLayout(
      look,
      heightOf(look, 380, 380, 220),
      { t: 30, b: look.narrow ? 112 : 84, l: 40, r: 40 },
      {
        hovermode: 'closest',
        xaxis: axis(look, { range: [-0.02, names.length - 0.98], visible: false }),
        yaxis: axis(look, { range: [0, 1], visible: false }),
        shapes: across.map((i) => ({
          type: 'line',
          x0: i,
          x1: i,
          yref: 'paper',
          y0: 0,
          y1: 1,
          line: { color: palette.ink, width: 1 },
        })),
        annotations: ends,
      },
    ),
  };
}

const digits = (value: number): string => String(Number(value.toPrecision(4)));

const wrapped = (name: string): string => name.replace(/(.{9,}?[ .])/g, '$1<br>').replace(/<br>$/, '');

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
  const dots = (landing: boolean, more: Bag): Bag => {
    const chosen = history.filter(({ lands }) => lands === landing);
    return {
      type: 'scatter',
      mode: 'markers',
      x: chosen.map((one) => one.evaluation),
      y: chosen.map((one) => one.value),
      hovertemplate: '%{y:.4g}',
      ...more,
    };
  };
  return {
    data: [
      dots(true, { name: 'lands', marker: { size: 6, color: palette.faint } }),
      dots(false, {
        name: 'lands outside',
        marker: { size: 6, symbol: 'circle-open', color: palette.faint, line: { width: 1.2 } },
      }),
      {
        type: 'scatter',
        mode: 'lines',
        x: history.map((one) => one.evaluation),
        y: front,
        line: { color: palette.line.torque, width: 2.4, shape: 'hv' },
        name: 'best so far',
        hovertemplate: '%{y:.4g}',
      },
    ],
    layout: baseLayout(
      look,
      heightOf(look, 290, 260, 180),
      { t: 34, b: 46, l: 50, r: 14 },
      {
        xaxis: axis(look, {
          nticks: 8,
          title: { text: 'Drafts computed', font: { size: 12, color: palette.faint }, standoff: 6 },
        }),
        yaxis: axis(look, { nticks: 6, rangemode: 'tozero' }),
        annotations: [axisName(look, label(name))],
      },
    ),
  };
}
