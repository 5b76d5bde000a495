/**
 * Axes and labels of every figure. The name of a vertical axis, with its unit, is set level above its top end, where it
 * needs no turned head; lines are named at their ends, pushed apart where they would touch.
 */

import { namedEvents, type PortEvents } from './events.ts';
import { fontStack, type Look } from './look.ts';
import { thin } from './numbers.ts';

export type Bag = Readonly<Record<string, unknown>>;

export type Range = readonly [low: number, high: number];

/** Range over all finite values, widened by a share of its span; `include` names values that must show. */
export function rangeOf(
  values: Iterable<number | null | undefined>,
  pad = 0.06,
  include: readonly number[] = [],
): Range {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  const widen = (value: number | null | undefined): void => {
    if (typeof value !== 'number' || !Number.isFinite(value)) return;
    if (value < low) low = value;
    if (value > high) high = value;
  };
  for (const value of values) widen(value);
  for (const value of include) widen(value);
  if (!(low <= high)) return [0, 1];
  const span = high - low || Math.abs(high) || 1;
  return [low - pad * span, high + pad * span];
}

/** Plain axis in the house style. */
export const axis = (look: Look, more: Bag = {}): Bag => ({
  gridcolor: look.palette.grid,
  linecolor: look.palette.hairline,
  tickcolor: look.palette.hairline,
  tickfont: { color: look.palette.faint, size: look.narrow ? 11 : 12 },
  ticks: 'outside',
  ticklen: 4,
  showline: true,
  zeroline: false,
  fixedrange: look.narrow,
  ...more,
});

/** Horizontal axis of engine speed [rpm]. */
export const speedAxis = (look: Look, range: Range, more: Bag = {}): Bag =>
  axis(look, {
    range: [...range],
    nticks: look.narrow ? 5 : 10,
    spikethickness: 1,
    spikedash: 'solid',
    spikecolor: look.palette.hairline,
    tickformat: ',d',
    unifiedhovertitle: { text: `%{x:,d}${thin}rpm` },
    title: { text: 'Engine speed [rpm]', font: { size: 12, color: look.palette.faint }, standoff: 6 },
    ...more,
  });

/** Ticks at the port events, named, the angle below the name or beside it. */
export function eventTicks(look: Look, events: PortEvents, between = '<br>'): Bag {
  const named = namedEvents(events);
  return {
    tickmode: 'array',
    tickvals: named.map((event) => event.angle),
    ticktext: named.map(
      (event) => `${event.short.replace('next ', '')}${between}${Math.round(event.angle)}°`,
    ),
    tickangle: 0,
    tickfont: { color: look.palette.ink, size: look.narrow ? 10 : 12 },
  };
}

/** Horizontal crank axis from one exhaust opening to the next, events named [deg after top dead centre]. */
export const crankAxis = (look: Look, events: PortEvents, more: Bag = {}): Bag =>
  axis(look, {
    range: [events.exhaustOpens, events.exhaustOpens + 360],
    unifiedhovertitle: { text: '%{x:.0f}°' },
    ...eventTicks(look, events),
    title: {
      text: 'Crank angle [° after top dead centre]',
      font: { size: 12, color: look.palette.faint },
      standoff: 6,
    },
    ...more,
  });

/** Name of a vertical axis, level above its top end. `top` is the top of the plot's domain. */
export const axisName = (look: Look, text: string, top = 1, left = 0): Bag => ({
  text,
  xref: 'paper',
  yref: 'paper',
  x: left,
  y: top,
  xanchor: 'left',
  yanchor: 'bottom',
  yshift: 3,
  xshift: -34,
  showarrow: false,
  align: 'left',
  font: { size: 12, color: look.palette.faint },
});

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
  return shown.map((entry, index) => ({
    text: entry.text,
    xref: 'paper',
    x: 1,
    yref: place.yref ?? 'y',
    y: ys[index],
    xanchor: 'left',
    yanchor: 'middle',
    xshift: 5,
    showarrow: false,
    align: 'left',
    font: { color: entry.colour, size: look.narrow ? 11 : 12 },
  }));
}

/** Room above a plot for the name of its vertical axis [px]. */
export const topMargin = (look: Look): number => (look.print ? 20 : 34);

/** Layout all figures share. */
export const baseLayout = (
  look: Look,
  height: number,
  margin: { readonly l?: number; readonly r?: number; readonly t?: number; readonly b?: number },
  more: Bag = {},
): Bag => ({
  width: look.width,
  height,
  autosize: false,
  margin: { l: 44, r: 12, t: 26, b: 44, ...margin },
  paper_bgcolor: 'rgba(0,0,0,0)',
  plot_bgcolor: 'rgba(0,0,0,0)',
  font: { family: fontStack, size: 12, color: look.palette.ink },
  showlegend: false,
  // A point before decimals, a narrow blank between thousands, as in the text.
  separators: `.${thin}`,
  hovermode: 'x unified',
  hoverlabel: {
    bgcolor: look.palette.sheet,
    bordercolor: look.palette.hairline,
    font: { family: fontStack, size: 12, color: look.palette.ink },
  },
  dragmode: look.narrow ? false : 'zoom',
  ...more,
});

/** Crank-angle window between transfer and exhaust closing, as a shaded upright band over the whole height. */
export const landingBand = (look: Look, events: PortEvents, xref = 'x'): Bag => ({
  type: 'rect',
  xref,
  yref: 'paper',
  x0: events.transfersClose,
  x1: events.exhaustCloses,
  y0: 0,
  y1: 1,
  line: { width: 0 },
  fillcolor: look.palette.useful,
  layer: 'below',
});
