/**
 * A run in a thumb's breadth: a few curves without axes, for the index. Curves of one kind of quantity share their
 * scale: those of torque and of power start at nought, those of pressure at the lowest of them.
 */

import { html, type Markup } from '../theme/markup.ts';

export interface ThumbCurve {
  readonly x: readonly number[];
  readonly y: readonly (number | null)[];
  /** Which style it takes; `draft` is the torque of one of several drafts, in their order. */
  readonly kind: 'torque' | 'power' | 'draft' | 'returning' | 'outgoing';
}

const size = { width: 160, height: 60, edge: 4 };

const scaleOf = {
  torque: 'torque',
  draft: 'torque',
  power: 'power',
  returning: 'bar',
  outgoing: 'bar',
} as const;

type Point = readonly [x: number, y: number];

const knownOf = ({ x, y }: ThumbCurve): Point[] =>
  x.flatMap((at, i) => {
    const value = y[i];
    return typeof value === 'number' && Number.isFinite(value) ? [[at, value] as const] : [];
  });

/** A pressure that moves by less than this share of itself is drawn as next to nothing. */
const QUIET = 0.005;

function rangeOf(curves: readonly ThumbCurve[], scale: string): readonly [low: number, high: number] {
  const ys = curves
    .filter(({ kind }) => scaleOf[kind] === scale)
    .flatMap((one) => knownOf(one).map(([, y]) => y));
  const high = Math.max(...ys);
  if (scale !== 'bar') return [Math.min(0, ...ys), high];
  const low = Math.min(...ys);
  return [low, Math.max(high, low + QUIET * Math.abs(low))];
}

export function thumbnail(curves: readonly ThumbCurve[], title: string): Markup {
  const xs = curves.flatMap((one) => knownOf(one).map(([x]) => x));
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  let drafts = 0;
  const lines = curves.map((curve) => {
    const style = curve.kind === 'draft' ? `draft-${drafts++}` : curve.kind;
    const known = knownOf(curve);
    if (known.length < 2) return '';
    const [low, high] = rangeOf(curves, scaleOf[curve.kind]);
    const points = known.map(
      ([x, y]) =>
        `${(size.edge + ((x - left) / (right - left || 1)) * (size.width - 2 * size.edge)).toFixed(1)},${(size.height - size.edge - ((y - low) / (high - low || 1)) * (size.height - 2 * size.edge)).toFixed(1)}`,
    );
    return html`<polyline class="thumb-${style}" points="${points.join(' ')}"/>`;
  });
  return html`<svg class="thumb" role="img" aria-label="${title}" viewBox="0 0 ${size.width} ${size.height}" preserveAspectRatio="none">${lines}</svg>`;
}
