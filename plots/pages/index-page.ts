/** The index of a folder of runs, newest first, each with its outline and a curve. It needs no script. */

import type { OutlineSection } from '../../src/findings/record.ts';
import { outlineDrawing } from '../figures/outline-drawing.ts';
import { type ThumbCurve, thumbnail } from '../figures/thumbnail.ts';
import { html, type Markup } from '../theme/markup.ts';
import { sheet } from './sheet.ts';
import { stretchMm } from './stretch-mm.ts';

export interface IndexedRun {
  readonly title: string;
  /** sweep, map, compare, overnight, aim, pulse, verify. */
  readonly kind: string;
  /** Path of its page from the index, with forward slashes. */
  readonly href: string;
  /** ISO 8601, sorts as text. */
  readonly when: string;
  /** The answer in one line. */
  readonly line: string;
  readonly outlines: readonly (readonly OutlineSection[])[];
  readonly curves: readonly ThumbCurve[];
}

export interface IndexPageResult {
  readonly program: string;
  readonly folder: string;
  readonly runs: readonly IndexedRun[];
}

/** A relative path as a link: each step encoded, nothing that could be another scheme. */
const link = (path: string): string => `./${path.split('/').map(encodeURIComponent).join('/')}`;

const readableTime = (iso: string): string => iso.replace('T', ' ').slice(0, 16);

/** The run's folder, as it is typed. */
const folderOf = (href: string): string => href.split('/')[0] ?? '';

function entry(run: IndexedRun): Markup {
  const outline =
    run.outlines.length === 0
      ? ''
      : outlineDrawing(
          run.outlines.map((parts, i) => ({ name: `${run.title} ${i + 1}`, outline: parts.map(stretchMm) })),
          `Outline of ${run.title}`,
        );
  const curve = run.curves.length === 0 ? '' : thumbnail(run.curves, `Curve of ${run.title}`);
  return html`<li><a href="${link(run.href)}">${run.title}</a><span class="what">${run.kind}, ${readableTime(run.when)}, in ${folderOf(run.href)}</span><p>${run.line}</p><div class="thumbs">${outline}${curve}</div></li>`;
}

export function indexPage(result: IndexPageResult): string {
  const runs = [...result.runs].sort((a, b) => (a.when < b.when ? 1 : a.when > b.when ? -1 : 0));
  const count = runs.length === 0 ? 'No runs yet' : runs.length === 1 ? '1 run' : `${runs.length} runs`;
  return sheet({
    title: `Runs in ${result.folder}`,
    titleBlock: [
      ['Runs', result.folder],
      ['Listed', `${count}, newest first`],
      ['Program', result.program, 'minor'],
    ],
    body: html`<h1 class="alone">${count} in ${result.folder}</h1><ol class="runs">${runs.map(entry)}</ol>`,
    data: null,
    program: result.program,
    assets: null,
  });
}
