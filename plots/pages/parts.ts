/** Parts that several pages share: lists of findings, tables, the player's bar. */

import { html } from '../theme/escape.ts';

export interface Finding {
  readonly label: string;
  readonly text: string;
  readonly way?: unknown;
}

/** Findings in words, label beside text. */
export const findings = (lines: readonly Finding[]): string =>
  `<dl class="findings">${lines
    .map(
      ({ label, text, way }) =>
        `<div${way ? ' class="way"' : ''}><dt>${html(label)}</dt><dd>${html(text)}</dd></div>`,
    )
    .join('')}</dl>`;

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

const attributes = (cell: Cell): string => {
  const kinds = [cell.number ? 'n' : '', cell.kind ?? ''].filter((kind) => kind !== '').join(' ');
  const sort = cell.sort === undefined ? '' : ` data-sort="${html(String(cell.sort ?? ''))}"`;
  return `${kinds === '' ? '' : ` class="${kinds}"`}${sort}`;
};

const heading = ({ name, unit, number }: Heading): string =>
  `<th scope="col"${number ? ' class="n"' : ''}>${html(name)}${unit ? `<span class="unit">${html(unit)}</span>` : ''}</th>`;

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
): string {
  const lines = rows.map(
    ({ cells, kind, met }) =>
      `<tr${kind ? ` class="${kind}"` : ''}${met === undefined ? '' : ` data-met="${html(met)}"`}>${cells.map((cell) => `<td${attributes(cell)}>${html(cell.text)}</td>`).join('')}</tr>`,
  );
  return `<div class="scroll${size === '' ? '' : ` ${size}`}" tabindex="0" role="region" aria-label="${html(caption)}"><table${id === '' ? '' : ` id="${id}"`}><caption>${html(caption)}</caption><thead><tr>${headings.map(heading).join('')}</tr></thead><tbody>${lines.join('')}</tbody></table></div>`;
}

/** Slider and play button over `count` computed values; with `readout`, a line that says what is pointed at. */
export const playerBar = (name: string, count: number, start: number, readout?: string): string =>
  `<div class="player${readout === undefined ? '' : ' tells'}"><button type="button" id="play" aria-pressed="false">Play</button><label for="speed">${html(name)}</label><input type="range" id="speed" min="0" max="${Math.max(0, count - 1)}" step="1" value="${start}"><output for="speed" id="speed-out"></output><span class="verdict" id="verdict"></span>${readout === undefined ? '' : `<span class="readout" id="readout">${html(readout)}</span>`}</div>`;
