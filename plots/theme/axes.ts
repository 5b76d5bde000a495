/**
 * Axes of every figure, and the layout all share. The name of a vertical axis, with its unit, is set level above its top
 * end, where it needs no turned head.
 */

import { namedEvents, type PortEvents } from './events.ts';
import { FONT_STACK, type Look } from './look.ts';
import { THIN } from './numbers.ts';

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

/** Name of a horizontal axis, below it. */
export const axisTitle = (look: Look, text: string, standoff = 6): Bag => ({
  text,
  font: { size: 12, color: look.palette.faint },
  standoff,
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
    unifiedhovertitle: { text: `%{x:,d}${THIN}rpm` },
    title: axisTitle(look, 'Engine speed [rpm]'),
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
    title: axisTitle(look, 'Crank angle [° after top dead centre]'),
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
  // What is laid out here stays where it is put: no colour scale may push the margins.
  margin: { l: 44, r: 12, t: 26, b: 44, ...margin, autoexpand: false },
  paper_bgcolor: 'rgba(0,0,0,0)',
  plot_bgcolor: 'rgba(0,0,0,0)',
  font: { family: FONT_STACK, size: 12, color: look.palette.ink },
  showlegend: false,
  // A point before decimals, a narrow blank between thousands, as in the text.
  separators: `.${THIN}`,
  hovermode: 'x unified',
  hoverlabel: {
    bgcolor: look.palette.sheet,
    bordercolor: look.palette.hairline,
    font: { family: FONT_STACK, size: 12, color: look.palette.ink },
  },
  dragmode: look.narrow ? false : 'zoom',
  ...more,
});
