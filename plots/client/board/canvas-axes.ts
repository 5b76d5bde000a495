/** The axes of a figure on a canvas: lines of the grid under the curves, ticks with their words around the plot. */

import { FONT_STACK, type Look } from '../../theme/look.ts';
import { speed } from '../../theme/numbers.ts';
import { type Axis, type Frame, type Panel, roundTicks } from './canvas-frame.ts';

interface Tick {
  readonly at: number;
  readonly text: string;
}

function ticksOf(axis: Axis): readonly Tick[] {
  const [low, high] = axis.range ?? [0, 1];
  if (axis.tickmode === 'array') {
    const words = axis.ticktext as readonly string[];
    return (axis.tickvals as readonly number[]).map((at, k) => ({ at, text: words[k] ?? '' }));
  }
  const ending = typeof axis.ticksuffix === 'string' ? axis.ticksuffix : '';
  const values = roundTicks(
    Math.min(low, high),
    Math.max(low, high),
    typeof axis.nticks === 'number' ? axis.nticks : 6,
  );
  const step = Math.abs((values[1] ?? 1) - (values[0] ?? 0));
  const decimals = Math.max(0, Math.min(4, -Math.floor(Math.log10(step) + 1e-9)));
  return values.map((at) => ({
    at,
    text: `${axis.tickformat === ',d' ? speed(at) : at.toFixed(decimals).replace('-', '−')}${ending}`,
  }));
}

const inRange = ({ range: [low, high] = [0, 1] }: Axis, at: number): boolean =>
  at >= Math.min(low, high) - 1e-9 && at <= Math.max(low, high) + 1e-9;

const fontOf = (axis: Axis, look: Look): { readonly color: string; readonly size: number } => {
  const font = (axis.tickfont ?? {}) as { color?: string; size?: number };
  return { color: font.color ?? look.palette.faint, size: font.size ?? 12 };
};

export function drawAxes(
  pen: CanvasRenderingContext2D,
  frame: Frame,
  look: Look,
  part: 'grid' | 'scales',
): void {
  for (const panel of frame.panels.values()) {
    if (panel.axis.visible === false) continue;
    if (part === 'grid') drawGrid(pen, frame, panel, look);
    else drawUpright(pen, frame, panel, look);
  }
  if (part === 'scales') drawLevel(pen, frame, look);
}

function drawGrid(pen: CanvasRenderingContext2D, frame: Frame, panel: Panel, look: Look): void {
  pen.strokeStyle = look.palette.grid;
  pen.lineWidth = 1;
  pen.beginPath();
  if (panel.axis.showgrid !== false)
    for (const { at } of ticksOf(panel.axis)) {
      if (!inRange(panel.axis, at)) continue;
      pen.moveTo(panel.left, Math.round(panel.y(at)) + 0.5);
      pen.lineTo(panel.right, Math.round(panel.y(at)) + 0.5);
    }
  if (frame.xaxis.showgrid !== false && panel.axis.overlaying === undefined)
    for (const { at } of ticksOf(frame.xaxis)) {
      if (!inRange(frame.xaxis, at)) continue;
      pen.moveTo(Math.round(panel.x(at)) + 0.5, panel.top);
      pen.lineTo(Math.round(panel.x(at)) + 0.5, panel.bottom);
    }
  pen.stroke();
}

function drawUpright(
  pen: CanvasRenderingContext2D,
  frame: Frame,
  { axis, left, right, top, bottom, y }: Panel,
  look: Look,
): void {
  const behind = axis.side === 'right';
  const edge = axis.anchor === 'free' ? frame.plot.left : behind ? right : left;
  const { color, size } = fontOf(axis, look);
  const way = behind ? 1 : -1;
  pen.strokeStyle = look.palette.hairline;
  pen.lineWidth = 1;
  pen.beginPath();
  pen.moveTo(edge + 0.5, top);
  pen.lineTo(edge + 0.5, bottom);
  pen.stroke();
  pen.fillStyle = color;
  pen.font = `${size}px ${FONT_STACK}`;
  pen.textAlign = behind ? 'left' : 'right';
  pen.textBaseline = 'middle';
  for (const { at, text } of ticksOf(axis)) {
    if (!inRange(axis, at)) continue;
    pen.fillText(text.replace('<br>', ' '), edge + way * 7, y(at));
    pen.beginPath();
    pen.moveTo(edge, Math.round(y(at)) + 0.5);
    pen.lineTo(edge + way * 4, Math.round(y(at)) + 0.5);
    pen.stroke();
  }
}

function drawLevel(pen: CanvasRenderingContext2D, frame: Frame, look: Look): void {
  const { xaxis, plot } = frame;
  const panel = frame.panels.get(typeof xaxis.anchor === 'string' ? xaxis.anchor : 'y');
  if (panel === undefined) return;
  const { color, size } = fontOf(xaxis, look);
  pen.strokeStyle = look.palette.hairline;
  pen.lineWidth = 1;
  pen.beginPath();
  pen.moveTo(panel.left, panel.bottom + 0.5);
  pen.lineTo(panel.right, panel.bottom + 0.5);
  pen.stroke();
  pen.fillStyle = color;
  pen.font = `${size}px ${FONT_STACK}`;
  pen.textAlign = 'center';
  pen.textBaseline = 'top';
  let clear = Number.NEGATIVE_INFINITY;
  for (const { at, text } of ticksOf(xaxis)) {
    if (!inRange(xaxis, at)) continue;
    const x = panel.x(at);
    const lines = text.split('<br>');
    const half = Math.max(...lines.map((line) => pen.measureText(line).width)) / 2;
    pen.beginPath();
    pen.moveTo(Math.round(x) + 0.5, panel.bottom);
    pen.lineTo(Math.round(x) + 0.5, panel.bottom + 4);
    pen.stroke();
    if (x - half < clear) continue;
    lines.forEach((line, k) => {
      pen.fillText(line, Math.min(x, frame.width - half), panel.bottom + 7 + k * (size + 2));
    });
    clear = x + half + 4;
  }
  const title = (xaxis.title ?? {}) as { text?: string };
  if (title.text === undefined) return;
  const below = ticksOf(xaxis).some(({ text }) => text.includes('<br>')) ? 2 : 1;
  pen.fillStyle = look.palette.faint;
  pen.font = `12px ${FONT_STACK}`;
  pen.fillText(
    title.text,
    (panel.left + panel.right) / 2,
    Math.min(plot.bottom, panel.bottom) + 12 + below * (size + 2),
  );
}
