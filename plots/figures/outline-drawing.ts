/**
 * Pipe outlines as drawings: cut along the axis, length and diameter to one scale. Several stand one above the other to
 * the same scale, their flanges in one line, each over a shadow of the first, so that what differs shows. Lines keep
 * their width at any size; names and dimensions stand beside the drawings as text, so that they stay readable on a phone.
 */

import { type Stretch, silhouette, widestOf } from '../marks/silhouette.ts';
import { html, type Markup, type Piece } from '../theme/markup.ts';
import { fixed } from '../theme/numbers.ts';

export interface Draft {
  readonly name: string;
  readonly outline: readonly Stretch[];
}

/** What all drawings of a stack share [mm]. */
interface Frame {
  /** Longest engine passage: where the flanges stand. */
  readonly flange: number;
  readonly length: number;
  readonly height: number;
}

const EDGE = 4;
/** Further room between outlines of one drawing [mm]. */
const STACK_GAP = 24;

/** End of the engine's passage, where the pipe begins [mm]. */
const flangeOf = (outline: readonly Stretch[]): number =>
  outline.reduce((end, part) => (part.role === 'passage' ? Math.max(end, part.end) : end), 0);

function frameOf(drafts: readonly Draft[]): Frame {
  const flange = Math.max(0, ...drafts.map((draft) => flangeOf(draft.outline)));
  const length = Math.max(
    1,
    ...drafts.map((draft) => flange - flangeOf(draft.outline) + (draft.outline.at(-1)?.end ?? 0)),
  );
  return { flange, length, height: widestOf(drafts.flatMap(({ outline }) => outline)) + 12 };
}

const points = (xs: readonly number[], ys: readonly number[], right: number, middle: number): string =>
  xs.map((x, i) => `${(x + right).toFixed(1)},${((ys[i] ?? 0) + middle).toFixed(1)}`).join(' ');

function shape(draft: Draft, index: number, frame: Frame, middle: number, shadow?: Draft): Markup {
  const right = frame.flange - flangeOf(draft.outline);
  const under = ({ outline }: Draft): Markup => {
    const { x, y } = silhouette(outline);
    return html`<polygon class="shadow" points="${points(x, y, frame.flange - flangeOf(outline), middle)}"/>`;
  };
  const { x, y } = silhouette(draft.outline);
  const joints = draft.outline.slice(1).map((part) => {
    const half = part.diameters[0] / 2;
    const at = part.start + right;
    return html`<line class="joint" x1="${at}" x2="${at}" y1="${middle - half}" y2="${middle + half}"/>`;
  });
  return html`${shadow && under(shadow)}<polygon class="draft draft-${index}" points="${points(x, y, right, middle)}"><title>${draft.name}</title></polygon>${joints}<line class="centre" x1="${-EDGE}" x2="${frame.length + EDGE}" y1="${middle}" y2="${middle}"/>`;
}

const svg = (content: Piece, title: string, frame: Frame, height: number): Markup =>
  html`<svg class="outline" role="img" aria-label="${title}" viewBox="${-EDGE} 0 ${(frame.length + 2 * EDGE).toFixed(0)} ${height.toFixed(0)}" preserveAspectRatio="xMinYMid meet">${content}</svg>`;

/** Outlines in one drawing, without names. Classes `draft-0`, `draft-1`… */
export function outlineDrawing(drafts: readonly Draft[], title: string): Markup {
  const one = frameOf(drafts);
  const frame = drafts.length > 1 ? { ...one, height: one.height + STACK_GAP } : one;
  const shapes = drafts.map((draft, index) =>
    shape(draft, index, frame, (index + 0.5) * frame.height, index === 0 ? undefined : drafts[0]),
  );
  return svg(shapes, title, frame, frame.height * Math.max(1, drafts.length));
}

/** Each outline with its name beneath it. */
export function namedOutlines(drafts: readonly Draft[]): Markup {
  const frame = frameOf(drafts);
  const rows = drafts.map((draft, index) => {
    const drawn = index === 0 ? [draft] : [draft, drafts[0]!];
    const height = widestOf(drawn.flatMap(({ outline }) => outline)) + 6;
    const first = index === 0 ? undefined : drafts[0];
    return html`<li>${svg(shape(draft, index, frame, height / 2, first), `Outline of ${draft.name}`, frame, height)}<p class="draft-key key-${index}">${draft.name}</p></li>`;
  });
  return html`<ol class="outlines">${rows}</ol>`;
}

/** Sections of one pipe as a list, in the order of the gas: name, length, diameters [mm]. */
export function sectionList(outline: readonly Stretch[]): Markup {
  const items = outline.map((part) => html`<li><b>${part.name}</b> ${dimensions(part).join(', ')}</li>`);
  return html`<ol class="sections">${items}</ol>`;
}

/** Length and bores of a section in words. */
export function dimensions(part: Stretch): readonly [length: string, bores: string] {
  const [left, right] = part.diameters;
  const bores =
    Math.abs(left - right) < 0.05 ? `⌀${fixed(left, 1)}` : `⌀${fixed(left, 1)} → ${fixed(right, 1)}`;
  return [`${fixed(part.end - part.start, 0)} mm`, bores];
}
