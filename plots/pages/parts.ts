/** Parts that several pages share: lists of findings, tables, the player's bar. */

import { html, type Markup } from '../theme/markup.ts';

export interface Finding {
  readonly label: string;
  readonly text: string;
  readonly way?: unknown;
}

/** Findings in words, label beside text. */
export const findings = (lines: readonly Finding[]): Markup =>
  html`<dl class="findings">${lines.map(
    ({ label, text, way }) =>
      html`<div${way ? html` class="way"` : ''}><dt>${label}</dt><dd>${text}</dd></div>`,
  )}</dl>`;

export interface Cell {
  readonly text: string;
  readonly number?: boolean;
  /** Value to sort by, where the text does not sort. */
  readonly sort?: number | string | null;
  readonly kind?: string;
}

export interface Heading {
  readonly name: string;
  readonly unit?: string;
  readonly number?: boolean;
}

const attributes = (cell: Cell): Markup => {
  const kinds = [cell.number ? 'n' : '', cell.kind ?? ''].filter((kind) => kind !== '').join(' ');
  return html`${kinds && html` class="${kinds}"`}${cell.sort !== undefined && html` data-sort="${cell.sort}"`}`;
};

const heading = ({ name, unit, number }: Heading): Markup =>
  html`<th scope="col"${number && html` class="n"`}>${name}${unit && html`<span class="unit">${unit}</span>`}</th>`;

export interface TableRow {
  readonly cells: readonly Cell[];
  readonly kind?: string;
  /** For each constraint 1 if it is met, else 0; a filter reads it. */
  readonly met?: string;
}

/** A table of escaped text that scrolls by itself where it is too wide. */
export function table(
  caption: string,
  headings: readonly Heading[],
  rows: readonly TableRow[],
  id = '',
  size: '' | 'tall' = '',
): Markup {
  const lines = rows.map(
    ({ cells, kind, met }) =>
      html`<tr${kind && html` class="${kind}"`}${met !== undefined && html` data-met="${met}"`}>${cells.map((cell) => html`<td${attributes(cell)}>${cell.text}</td>`)}</tr>`,
  );
  return html`<div class="scroll${size && ` ${size}`}" tabindex="0" role="region" aria-label="${caption}"><table${id && html` id="${id}"`}><caption>${caption}</caption><thead><tr>${headings.map(heading)}</tr></thead><tbody>${lines}</tbody></table></div>`;
}

/** Slider and play button over `count` computed values; with `readout`, a line that says what is pointed at. */
export const playerBar = (name: string, count: number, start: number, readout?: string): Markup =>
  html`<div class="player${readout !== undefined && ' tells'}"><button type="button" id="play" aria-pressed="false">Play</button><label for="speed">${name}</label><input type="range" id="speed" min="0" max="${Math.max(0, count - 1)}" step="1" value="${start}"><output for="speed" id="speed-out"></output><span class="verdict" id="verdict"></span>${readout !== undefined && html`<span class="readout" id="readout">${readout}</span>`}</div>`;
