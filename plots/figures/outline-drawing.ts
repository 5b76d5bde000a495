/**
 * Pipe outlines as drawings: cut along the axis, length and diameter to one scale, several above one another to the
 * same scale. Lines keep their width at any size; dimensions stand beside the drawing as text, so that they stay
 * readable on a phone.
 */

import { html } from '../theme/escape.ts';
import { fixed } from '../theme/numbers.ts';
import { type Stretch, silhouette } from './wave-diagram.ts';

export interface Draft {
  readonly name: string;
  readonly outline: readonly Stretch[];
}

const points = (xs: readonly number[], ys: readonly number[], middle: number): string =>
  xs.map((x, i) => `${x.toFixed(1)},${((ys[i] ?? 0) + middle).toFixed(1)}`).join(' ');

/** Outlines laid over one another about one axis; the first filled, the others as lines. Classes `draft-0`, `draft-1`… */
export function outlineDrawing(drafts: readonly Draft[], title: string): string {
  const length = Math.max(1, ...drafts.map((draft) => draft.outline.at(-1)?.end ?? 0));
  const widest = Math.max(
    1,
    ...drafts.flatMap((draft) => draft.outline.flatMap((part) => [...part.diameters])),
  );
  const height = widest + 12;
  const middle = height / 2;
  const joints = (drafts[0]?.outline ?? []).slice(1).map((part) => {
    const half = part.diameters[0] / 2;
    return `<line class="joint" x1="${part.start}" x2="${part.start}" y1="${middle - half}" y2="${middle + half}"/>`;
  });
  const shapes = drafts.map((draft, index) => {
    const { x, y } = silhouette(draft.outline);
    return `<polygon class="draft draft-${index}" points="${points(x, y, middle)}"><title>${html(draft.name)}</title></polygon>`;
  });
  return `<svg class="outline" role="img" aria-label="${html(title)}" viewBox="-4 0 ${(length + 8).toFixed(0)} ${height.toFixed(0)}" preserveAspectRatio="xMinYMid meet">${shapes.join('')}${joints.join('')}<line class="centre" x1="-4" x2="${length + 4}" y1="${middle}" y2="${middle}"/></svg>`;
}

/** Sections of one pipe as a list, in the order of the gas: name, length, diameters [mm]. */
export function sectionList(outline: readonly Stretch[]): string {
  const items = outline.map((part) => {
    const [left, right] = part.diameters;
    const bores =
      Math.abs(left - right) < 0.05 ? `⌀${fixed(left, 1)}` : `⌀${fixed(left, 1)} → ${fixed(right, 1)}`;
    return `<li><b>${html(part.name)}</b> ${fixed(part.end - part.start, 0)} mm, ${bores}</li>`;
  });
  return `<ol class="sections">${items.join('')}</ol>`;
}
