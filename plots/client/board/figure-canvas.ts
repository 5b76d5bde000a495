/**
 * Draws a figure, Plotly's traces and layout as data, on a canvas at sixty frames a second: what the marks of this house use,
 * no more. So a live figure is the same pure function as that of any other page.
 */

import type { Figure } from '../../figures/figure.ts';
import type { Bag } from '../../theme/axes.ts';
import type { Look } from '../../theme/look.ts';
import { drawAxes } from './canvas-axes.ts';
import { dashOf, type Frame, type Panel, panelsOf } from './canvas-frame.ts';
import { drawHeat, drawScale } from './canvas-heat.ts';
import { annotate } from './canvas-words.ts';

/** Draws a figure; the canvas takes the size that its layout says. */
export function paint(canvas: HTMLCanvasElement, figure: Figure, look: Look): void {
  const frame = panelsOf(figure.layout, look);
  const pixels = devicePixelRatio;
  const [width, height] = [Math.round(frame.width * pixels), Math.round(frame.height * pixels)];
  if (canvas.width !== width || canvas.height !== height) {
    canvas.width = width;
    canvas.height = height;
    canvas.style.height = `${frame.height}px`;
  }
  const pen = canvas.getContext('2d');
  if (pen === null) return;
  pen.setTransform(pixels, 0, 0, pixels, 0, 0);
  pen.clearRect(0, 0, frame.width, frame.height);
  const shapes = listOf(figure.layout.shapes);
  for (const shape of shapes) if (shape.layer === 'below') drawShape(pen, frame, shape);
  drawAxes(pen, frame, look, 'grid');
  figure.data.forEach((trace, k) => {
    drawTrace(pen, frame, trace, figure.data[k - 1], look);
  });
  for (const shape of shapes) if (shape.layer !== 'below') drawShape(pen, frame, shape);
  drawAxes(pen, frame, look, 'scales');
  for (const trace of figure.data) if (trace.type === 'heatmap') drawScale(pen, frame, trace, look);
  for (const note of listOf(figure.layout.annotations)) annotate(pen, frame, note, look);
}

const listOf = (value: unknown): readonly Bag[] => (Array.isArray(value) ? (value as readonly Bag[]) : []);

type Values = ArrayLike<number | null>;

function drawTrace(
  pen: CanvasRenderingContext2D,
  frame: Frame,
  trace: Bag,
  before: Bag | undefined,
  look: Look,
): void {
  const panel = frame.panels.get(typeof trace.yaxis === 'string' ? trace.yaxis : 'y');
  if (panel === undefined) return;
  pen.save();
  pen.beginPath();
  pen.rect(panel.left, panel.top - 1, panel.right - panel.left, panel.bottom - panel.top + 2);
  pen.clip();
  pen.globalAlpha = typeof trace.opacity === 'number' ? trace.opacity : 1;
  if (trace.type === 'heatmap') drawHeat(pen, panel, trace);
  else drawCurve(pen, panel, trace, before, look);
  pen.restore();
}

function drawCurve(
  pen: CanvasRenderingContext2D,
  panel: Panel,
  trace: Bag,
  before: Bag | undefined,
  look: Look,
): void {
  const [xs, ys] = [trace.x as Values, trace.y as Values];
  const line = (trace.line ?? {}) as { color?: string; width?: number; dash?: string };
  const mode = typeof trace.mode === 'string' ? trace.mode : 'lines';
  if (trace.fill === 'tonexty' && before !== undefined) fillBetween(pen, panel, trace, before);
  if (trace.fill === 'toself') {
    pen.beginPath();
    follow(pen, panel, xs, ys);
    pen.fillStyle = String(trace.fillcolor);
    pen.fill();
  }
  if (mode.includes('lines') && (line.width ?? 1) > 0) {
    pen.beginPath();
    follow(pen, panel, xs, ys);
    pen.strokeStyle = line.color ?? look.palette.ink;
    pen.lineWidth = line.width ?? 1;
    pen.lineJoin = 'round';
    pen.setLineDash(dashOf(line.dash));
    pen.stroke();
    pen.setLineDash([]);
  }
  drawSwings(pen, panel, trace);
  if (mode.includes('markers')) drawMarkers(pen, panel, trace, line.color ?? look.palette.ink);
}

/** A line through the points; where one is absent it is lifted. */
function follow(pen: CanvasRenderingContext2D, panel: Panel, xs: Values, ys: Values): void {
  let down = false;
  for (let k = 0; k < xs.length; k++) {
    const [x, y] = [xs[k], ys[k]];
    if (typeof x !== 'number' || typeof y !== 'number' || Number.isNaN(y)) {
      down = false;
      continue;
    }
    if (down) pen.lineTo(panel.x(x), panel.y(y));
    else pen.moveTo(panel.x(x), panel.y(y));
    down = true;
  }
}

function fillBetween(pen: CanvasRenderingContext2D, panel: Panel, trace: Bag, before: Bag): void {
  const [xs, ys, low] = [trace.x as Values, trace.y as Values, before.y as Values];
  pen.fillStyle = String(trace.fillcolor);
  for (let k = 1; k < xs.length; k++) {
    const ends = [xs[k - 1], xs[k], ys[k - 1], ys[k], low[k - 1], low[k]];
    if (!ends.every((value): value is number => typeof value === 'number')) continue;
    const [x0, x1, y0, y1, b0, b1] = ends as [number, number, number, number, number, number];
    pen.beginPath();
    pen.moveTo(panel.x(x0), panel.y(y0));
    pen.lineTo(panel.x(x1), panel.y(y1));
    pen.lineTo(panel.x(x1), panel.y(b1));
    pen.lineTo(panel.x(x0), panel.y(b0));
    pen.fill();
  }
}

function drawSwings(pen: CanvasRenderingContext2D, panel: Panel, trace: Bag): void {
  const swing = trace.error_y as { array?: readonly number[]; color?: string; visible?: boolean } | undefined;
  if (swing?.visible !== true) return;
  const [xs, ys] = [trace.x as Values, trace.y as Values];
  pen.strokeStyle = swing.color ?? '#888';
  pen.lineWidth = 1.4;
  (swing.array ?? []).forEach((half, k) => {
    const [x, y] = [xs[k], ys[k]];
    if (!(half > 0) || typeof x !== 'number' || typeof y !== 'number') return;
    pen.beginPath();
    pen.moveTo(panel.x(x), panel.y(y - half));
    pen.lineTo(panel.x(x), panel.y(y + half));
    pen.stroke();
  });
}

/** The k-th of a list, or the one that stands for all. */
const each = <T>(value: unknown, k: number, otherwise: T): T => {
  const one: unknown = Array.isArray(value) ? value[k] : value;
  return one === undefined ? otherwise : (one as T);
};

function drawMarkers(pen: CanvasRenderingContext2D, panel: Panel, trace: Bag, colour: string): void {
  const [xs, ys] = [trace.x as Values, trace.y as Values];
  const marker = (trace.marker ?? {}) as Bag;
  const rim = (marker.line ?? {}) as { color?: string; width?: number };
  for (let k = 0; k < xs.length; k++) {
    const [x, y] = [xs[k], ys[k]];
    if (typeof x !== 'number' || typeof y !== 'number') continue;
    const radius = each(marker.size, k, 6) / 2;
    const [px, py] = [panel.x(x), panel.y(y)];
    pen.beginPath();
    if (each(marker.symbol, k, 'circle') === 'circle') {
      pen.arc(px, py, radius, 0, 2 * Math.PI);
      pen.fillStyle = each(marker.color, k, colour);
      pen.fill();
    } else {
      pen.moveTo(px - radius, py - radius);
      pen.lineTo(px + radius, py + radius);
      pen.moveTo(px + radius, py - radius);
      pen.lineTo(px - radius, py + radius);
    }
    if (rim.width === undefined) continue;
    pen.strokeStyle = rim.color ?? colour;
    pen.lineWidth = rim.width;
    pen.stroke();
  }
}

function drawShape(pen: CanvasRenderingContext2D, frame: Frame, shape: Bag): void {
  const x = (value: unknown): number => frame.placeX(shape.xref, Number(value));
  const y = (value: unknown): number => frame.placeY(shape.yref, Number(value));
  const [x0, x1, y0, y1] = [x(shape.x0), x(shape.x1), y(shape.y0), y(shape.y1)];
  const line = (shape.line ?? {}) as { color?: string; width?: number; dash?: string };
  pen.save();
  pen.beginPath();
  const { left, top, right, bottom } = frame.plot;
  pen.rect(left, top, right - left, bottom - top);
  pen.clip();
  if (shape.fillcolor !== undefined) {
    pen.fillStyle = String(shape.fillcolor);
    pen.fillRect(Math.min(x0, x1), Math.min(y0, y1), Math.abs(x1 - x0), Math.abs(y1 - y0));
  }
  if (shape.line !== undefined && (line.width ?? 1) > 0) {
    pen.beginPath();
    pen.moveTo(x0, y0);
    pen.lineTo(x1, y1);
    pen.strokeStyle = line.color ?? '#888';
    pen.lineWidth = line.width ?? 1;
    pen.setLineDash(dashOf(line.dash));
    pen.stroke();
  }
  pen.restore();
}
