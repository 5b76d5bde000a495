/** One run as the index of a folder shows it. */

import type { OutlineSection } from '../../src/findings/record.ts';
import { outlineDrawing } from '../figures/outline-drawing.ts';
import { type ThumbCurve, thumbnail } from '../figures/thumbnail.ts';
import { html, type Markup } from '../theme/markup.ts';
import type { Maybe } from '../theme/numbers.ts';
import { stretchMm } from './stretch-mm.ts';

/** Speed by speed, for a run to be laid beside another: torque [Nm], lead of the plug-back [deg]. */
export interface SweepCurves {
  readonly speeds: readonly number[];
  readonly torque: readonly Maybe[];
  readonly lead: readonly Maybe[];
}

export interface IndexedRun {
  readonly title: string;
  /** sweep, map, compare, overnight, aim, reconcile, pulse, verify. */
  readonly kind: string;
  /** The case that it is of, without what was changed; older cards have none. */
  readonly of?: string;
  /** Path of its page from the index, with forward slashes. */
  readonly href: string;
  /** ISO 8601, sorts as text. */
  readonly when: string;
  /** The answer in one line. */
  readonly line: string;
  readonly outlines: readonly (readonly OutlineSection[])[];
  readonly curves: readonly ThumbCurve[];
  /** Absent: it cannot be laid beside another. */
  readonly sweep?: SweepCurves;
}

/** A relative path as a link: each step encoded, nothing that could be another scheme. */
const link = (path: string): string => `./${path.split('/').map(encodeURIComponent).join('/')}`;

const readableTime = (iso: string): string => iso.replace('T', ' ').slice(0, 16);

/** The run's folder, as it is typed. */
export const folderOf = (href: string): string => href.split('/')[0] ?? '';

/** The case of a run: what its card says, or its title without what was changed. */
export const caseOf = (run: IndexedRun): string => run.of ?? run.title.split(' · ')[0] ?? run.title;

/** A run in the list; `beside` is its number among those that can be laid beside one another. */
export function indexEntry(run: IndexedRun, beside: number | null): Markup {
  const outline =
    run.outlines.length === 0
      ? ''
      : outlineDrawing(
          run.outlines.map((parts, i) => ({ name: `${run.title} ${i + 1}`, outline: parts.map(stretchMm) })),
          `Outline of ${run.title}`,
        );
  const curve = run.curves.length === 0 ? '' : thumbnail(run.curves, `Curve of ${run.title}`);
  const choice =
    beside !== null &&
    html`<label class="lay" hidden><input type="checkbox" value="${beside}"> side by side</label>`;
  return html`<li><a href="${link(run.href)}">${run.title}</a><span class="what">${run.kind}, ${readableTime(run.when)}, in ${folderOf(run.href)}</span>${choice}<p>${run.line}</p><div class="thumbs">${outline}${curve}</div></li>`;
}
