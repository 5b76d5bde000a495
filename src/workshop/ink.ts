/** Marks of a drawing on paper as SVG, in millimetres from its upper left corner. All text is escaped here. */

import type { Place } from './drawing.ts';
import { escaped } from './svg.ts';

const round = (value: number): string => String(Number(value.toFixed(3)));

export type Anchor = 'start' | 'middle' | 'end';

export function text(x: number, y: number, size: number, words: string, anchor: Anchor = 'start'): string {
  return `<text x="${round(x)}" y="${round(y)}" font-size="${round(size)}" text-anchor="${anchor}">${escaped(words)}</text>`;
}

/** Text that stays readable on top of lines. */
export function haloed(x: number, y: number, size: number, words: string): string {
  return `<text x="${round(x)}" y="${round(y)}" font-size="${round(size)}" text-anchor="middle" paint-order="stroke" stroke="#fff" stroke-width="${round(0.35 * size)}">${escaped(words)}</text>`;
}

export type Pen = 'thick' | 'thin' | 'centre';

const PENS: Readonly<Record<Pen, readonly [width: number, dashes: string]>> = {
  thick: [0.35, ''],
  thin: [0.13, ''],
  centre: [0.13, ' stroke-dasharray="6 1 1 1"'],
};

/** A line, closed where it is filled. `weight` thickens it, for a drawing that is shown small. */
export function stroke(places: readonly Place[], pen: Pen, fill = 'none', weight = 1): string {
  const [first, ...rest] = places.map(([x, y]) => `${round(x)} ${round(y)}`);
  if (first === undefined) return '';
  const [width, dashes] = PENS[pen];
  const closed = fill === 'none' ? '' : 'Z';
  return `<path d="M${[first, ...rest].join('L')}${closed}" fill="${fill}" stroke="#000" stroke-width="${round(width * weight)}"${dashes}/>`;
}

/** A dimension between two places of one height: line, arrows, the figure above it. */
export function dimension(x0: number, x1: number, y: number, words: string, size = 2.4): string {
  const head = Math.min(2, (x1 - x0) / 4);
  const arrow = (x: number, way: number): string =>
    stroke(
      [
        [x + way * head, y - 0.4],
        [x, y],
        [x + way * head, y + 0.4],
      ],
      'thin',
    );
  const fitting = Math.min(size, (x1 - x0) / (0.56 * words.length));
  return [
    stroke(
      [
        [x0, y],
        [x1, y],
      ],
      'thin',
    ),
    arrow(x0, 1),
    arrow(x1, -1),
    text((x0 + x1) / 2, y - 0.7, fitting, words, 'middle'),
  ].join('');
}

/** The sheet of paper, millimetres true. */
export function paper(width: number, height: number, title: string, marks: readonly string[]): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" font-family="Arial, Helvetica, sans-serif">`,
    `<title>${escaped(title)}</title>`,
    `<rect width="${width}" height="${height}" fill="#fff"/>`,
    ...marks,
    '</svg>',
    '',
  ].join('\n');
}
