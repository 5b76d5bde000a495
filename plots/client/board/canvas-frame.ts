/** Where things stand in a figure on a canvas: the plot, its panels with their scales, and places on axes or on the paper. */

import type { Bag } from '../../theme/axes.ts';
import type { Look } from '../../theme/look.ts';

/** [px] */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** What is read of an axis. */
export interface Axis extends Bag {
  readonly range?: readonly [number, number];
  readonly domain?: readonly [number, number];
  readonly overlaying?: string;
  readonly side?: string;
  readonly visible?: boolean;
}

/** A vertical axis with the box that it measures. */
export interface Panel extends Box {
  readonly name: string;
  readonly axis: Axis;
  x(value: number): number;
  y(value: number): number;
}

export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly plot: Box;
  readonly xaxis: Axis;
  /** By the name that traces know them by: y, y2, … */
  readonly panels: ReadonlyMap<string, Panel>;
  /** Places [px] of a value on an axis, or of a share of the plot where it is named paper. */
  placeX(ref: unknown, value: number): number;
  placeY(ref: unknown, value: number): number;
}

export function panelsOf(layout: Bag, look: Look): Frame {
  const margin = layout.margin as { l: number; r: number; t: number; b: number };
  const [width, height] = [look.width, Number(layout.height)];
  const plot = { left: margin.l, top: margin.t, right: width - margin.r, bottom: height - margin.b };
  const xaxis = (layout.xaxis ?? {}) as Axis;
  const [x0, x1] = xaxis.domain ?? [0, 1];
  const across = plot.right - plot.left;
  const down = plot.bottom - plot.top;
  const [left, right] = [plot.left + x0 * across, plot.left + x1 * across];
  const [low, high] = xaxis.range ?? [0, 1];
  const x = (value: number): number => left + ((value - low) / (high - low)) * (right - left);
  const panels = new Map<string, Panel>();
  for (const [key, value] of Object.entries(layout)) {
    if (!/^yaxis\d*$/.test(key)) continue;
    const name = key.replace('axis', '');
    const axis = value as Axis;
    const under =
      axis.overlaying === undefined ? axis : (layout[axis.overlaying.replace('y', 'yaxis')] as Axis);
    const [y0, y1] = under.domain ?? [0, 1];
    const [top, bottom] = [plot.bottom - y1 * down, plot.bottom - y0 * down];
    const [least, most] = axis.range ?? [0, 1];
    const y = (at: number): number => bottom - ((at - least) / (most - least)) * (bottom - top);
    panels.set(name, { name, axis, left, right, top, bottom, x, y });
  }
  return {
    width,
    height,
    plot,
    xaxis,
    panels,
    placeX: (ref, value) => (ref === 'paper' ? plot.left + value * across : x(value)),
    placeY: (ref, value) =>
      ref === 'paper'
        ? plot.bottom - value * down
        : (panels.get(typeof ref === 'string' ? ref : 'y')?.y(value) ?? 0),
  };
}

const DASHES: Readonly<Record<string, readonly number[]>> = {
  dot: [2, 3],
  dash: [7, 4],
  longdash: [12, 4],
  dashdot: [8, 3, 2, 3],
  longdashdot: [12, 3, 2, 3],
};

/** A dash by its name, or by its lengths: `2px,3px`. */
export function dashOf(name: string | undefined): number[] {
  if (name === undefined || name === 'solid') return [];
  return [...(DASHES[name] ?? name.split(',').map(Number.parseFloat))];
}

/** Round values within a range, about so many. */
export function roundTicks(low: number, high: number, count: number): number[] {
  const raw = (high - low) / Math.max(1, count);
  if (!(raw > 0)) return [];
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = ([1, 2, 5, 10].find((one) => one * power >= raw * (1 - 1e-9)) ?? 10) * power;
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, k) =>
    Number(((first + k) * step).toPrecision(12)),
  );
}
