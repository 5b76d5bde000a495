/**
 * One quantity of two runs over the same speeds, with axes, as a drawing without a library: the index of a folder is
 * written anew by every run and has to stay small. Curves take the style of drafts, the first solid.
 */

import { html, type Markup } from '../theme/markup.ts';
import { fixed, isNumber, type Maybe, speed } from '../theme/numbers.ts';

export interface BesideCurve {
  readonly x: readonly number[];
  readonly y: readonly Maybe[];
}

const size = { width: 420, height: 200, left: 40, right: 24, top: 12, bottom: 28 };
/** Parts that an axis is cut into, about. */
const PARTS = 4;

/** A round step that cuts a span so. */
function stepOf(span: number): number {
  const rough = span / PARTS;
  const power = 10 ** Math.floor(Math.log10(rough));
  return power * ([1, 2, 5].find((part) => part * power >= rough) ?? 10);
}

interface Axis {
  readonly ticks: readonly number[];
  readonly at: (value: number) => number;
}

function axisOf(values: readonly number[], from: number, to: number): Axis {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const step = stepOf(high - low || 1);
  const [first, last] = [Math.floor(low / step), Math.ceil(high / step)];
  const [start, end] = [first * step, (last === first ? last + 1 : last) * step];
  return {
    ticks: Array.from({ length: Math.round((end - start) / step) + 1 }, (_, k) => start + k * step),
    at: (value) => from + ((value - start) / (end - start)) * (to - from),
  };
}

/** The curves of runs over speed [rpm]; null where there is nothing to draw. */
export function besideCurves(
  curves: readonly BesideCurve[],
  of: { readonly title: string; readonly unit: string; readonly decimals: number },
): Markup | null {
  const known = curves.map(({ x, y }) => x.flatMap((at, k) => (isNumber(y[k]) ? [[at, y[k]] as const] : [])));
  const all = known.flat();
  if (known.some((points) => points.length < 2)) return null;
  const x = axisOf(
    all.map(([at]) => at),
    size.left,
    size.width - size.right,
  );
  const y = axisOf(
    all.map(([, value]) => value),
    size.height - size.bottom,
    size.top,
  );
  const foot = size.height - size.bottom;
  const across = y.ticks.map(
    (value) =>
      html`<line x1="${size.left}" x2="${size.width - size.right}" y1="${y.at(value).toFixed(1)}" y2="${y.at(value).toFixed(1)}"/><text class="value" x="${size.left - 6}" y="${(y.at(value) + 4).toFixed(1)}">${fixed(value, of.decimals)}</text>`,
  );
  const up = x.ticks.map(
    (value) =>
      html`<line x1="${x.at(value).toFixed(1)}" x2="${x.at(value).toFixed(1)}" y1="${foot}" y2="${foot + 4}"/><text class="speed" x="${x.at(value).toFixed(1)}" y="${foot + 18}">${speed(value)}</text>`,
  );
  const lines = known.map((points, index) => {
    const path = points.map(([at, value]) => `${x.at(at).toFixed(1)},${y.at(value).toFixed(1)}`);
    return html`<polyline class="thumb-draft-${index}" points="${path.join(' ')}"/>`;
  });
  return html`<figure><h3>${of.title} [${of.unit}] over speed [rpm]</h3><svg class="beside-curves" role="img" aria-label="${of.title} of both runs over speed" viewBox="0 0 ${size.width} ${size.height}">${across}${up}${lines}</svg></figure>`;
}
