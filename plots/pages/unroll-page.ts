/**
 * What goes to the bench on one page: how the pipe looks when it is welded, its blanks on their sheets, the drawing of the
 * whole, the cut list. Drawings come as SVG and are shown as pictures, so nothing in them can act.
 */

import { html, type Markup } from '../theme/markup.ts';
import { fixed } from '../theme/numbers.ts';
import { type Finding, findings, table } from './parts.ts';
import { sheet } from './sheet.ts';

/** An SVG, and what it shows. */
export interface Picture {
  readonly svg: string;
  readonly seen: string;
  readonly caption: string;
  /** File beside the page that shows it larger. */
  readonly file: string | null;
}

export interface UnrollBlank {
  readonly part: number;
  readonly name: string;
  readonly ends: string;
  readonly insideStartMm: number;
  readonly insideEndMm: number;
  readonly lengthMm: number;
  readonly innerRadiusMm: number | null;
  readonly outerRadiusMm: number | null;
  readonly sweepDeg: number | null;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly seamWeldMm: number;
  readonly weld: number;
  readonly jointWeldMm: number;
  readonly massG: number;
  readonly sheet: number;
}

export interface UnrollPageResult {
  readonly program: string;
  readonly name: string;
  /** The answer in one line. */
  readonly line: string;
  readonly facts: readonly Finding[];
  readonly notes: readonly string[];
  readonly assumptions: readonly string[];
  readonly cautions: readonly string[];
  readonly assembled: Picture;
  readonly drawing: Picture;
  readonly sheets: readonly Picture[];
  readonly blanks: readonly UnrollBlank[];
}

function image({ svg, seen, caption, file }: Picture, title: string): Markup {
  const picture = html`<img class="drawn" alt="${seen}" src="${dataUrl(svg)}">`;
  const larger = file === null ? '' : html` <a href="${file}">Open ${file} to see it larger.</a>`;
  return html`<figure><h3>${title}</h3>${picture}<figcaption>${caption}${larger}</figcaption></figure>`;
}

/** An SVG as the source of a picture. */
export const dataUrl = (svg: string): string => `data:image/svg+xml,${encodeURIComponent(svg)}`;

const headings = [
  { name: 'Blank' },
  { name: 'Ends' },
  { name: 'Inside', unit: 'mm', number: true },
  { name: 'Length', unit: 'mm', number: true },
  { name: 'Radii', unit: 'mm', number: true },
  { name: 'Sweep', unit: 'deg', number: true },
  { name: 'Blank', unit: 'mm', number: true },
  { name: 'Seam', unit: 'mm', number: true },
  { name: 'Joint', unit: 'mm', number: true },
  { name: 'Mass', unit: 'g', number: true },
  { name: 'Sheet', number: true },
];

function cutList(blanks: readonly UnrollBlank[]): Markup {
  const number = (text: string) => ({ text, number: true });
  return table(
    'Without allowances but for the size of the blank. Joint: the weld at its upstream edge.',
    headings,
    blanks.map((blank) => ({
      cells: [
        { text: blank.name },
        { text: blank.ends },
        number(
          blank.insideStartMm === blank.insideEndMm
            ? fixed(blank.insideStartMm, 1)
            : `${fixed(blank.insideStartMm, 1)} to ${fixed(blank.insideEndMm, 1)}`,
        ),
        number(fixed(blank.lengthMm, 1)),
        number(
          blank.innerRadiusMm === null || blank.outerRadiusMm === null
            ? 'flat'
            : `${fixed(blank.innerRadiusMm, 1)}, ${fixed(blank.outerRadiusMm, 1)}`,
        ),
        number(blank.sweepDeg === null ? '–' : fixed(blank.sweepDeg, 2)),
        number(`${fixed(blank.widthMm, 1)} × ${fixed(blank.heightMm, 1)}`),
        number(fixed(blank.seamWeldMm, 1)),
        number(blank.jointWeldMm === 0 ? '–' : `W${blank.weld} ${fixed(blank.jointWeldMm, 1)}`),
        number(fixed(blank.massG, 0)),
        number(String(blank.sheet)),
      ],
    })),
  );
}

export function unrollPage(result: UnrollPageResult): string {
  const list = (lines: readonly string[]): Markup =>
    html`<ul>${lines.map((line) => html`<li>${line}</li>`)}</ul>`;
  const warnings = result.notes.map((note) => html`<p class="warn">${note}</p>`);
  return sheet({
    title: `${result.name}: patterns`,
    titleBlock: [
      ['Patterns', result.name],
      ['Blanks', String(result.blanks.length)],
      ['Program', result.program, 'minor'],
    ],
    body: html`<section class="answer"><div><h1>${result.line.replaceAll(/(?<=\d) x (?=\d)/g, ' × ')}</h1>${warnings}</div>${findings(result.facts)}</section><section><h2>The pipe</h2>${image(result.assembled, 'As it is welded')}${image(result.drawing, 'The whole pipe, for one A4 page')}</section><section><h2>The sheets</h2>${result.sheets.map((one, i) => image(one, `Sheet ${i + 1}`))}</section><section><h2>Cut list</h2>${cutList(result.blanks)}</section><section><h2>Taken for granted</h2>${list(result.assumptions)}<p class="warn">${result.cautions.join(' ')}</p></section>`,
    data: null,
    program: result.program,
    assets: null,
  });
}
