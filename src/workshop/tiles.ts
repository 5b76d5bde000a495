/**
 * A drawing over several sheets of paper at true size. Neighbouring pages share a strip of 10 mm; crosses at the corners
 * of what a page adds lie on the same points of both, so pages are laid over one another until they meet. Every page
 * carries the bar.
 */

import { type Box, type Drawing, type Lettering, line, moved, type Stroke } from './drawing.ts';
import { fitsSheet, nested } from './nest.ts';
import { drawingBox, scaleBar, svgOf } from './svg.ts';

export interface Paper {
  readonly name: 'A4' | 'A3';
  /** Short and long side [mm]. */
  readonly sides: readonly [number, number];
}

/** ISO 216. */
export const PAPERS: readonly Paper[] = [
  { name: 'A4', sides: [210, 297] },
  { name: 'A3', sides: [297, 420] },
];

export interface Tile {
  readonly landscape: boolean;
  readonly svg: string;
}

/** Left free for the printer; the strip below for bar and label; shared by neighbours [mm]. */
const MARGIN = 8;
const FOOT = 12;
const OVERLAP = 10;

/** What fits a page shares it with others; what does not is laid over several. */
export function pagesOf(drawings: readonly Drawing[], paper: Paper): readonly Tile[] {
  const { width, height } = gridOf({ left: 0, right: 0, top: 0, bottom: 0 }, paper, false);
  const pieces = drawings.map((drawing) => {
    const { left, right, bottom, top } = drawingBox(drawing);
    return {
      drawing: moved(drawing, [-left, -bottom]),
      piece: { width: right - left, height: top - bottom },
    };
  });
  const small = pieces.filter(({ piece }) => fitsSheet(piece, { width, height }));
  const large = pieces.filter(({ piece }) => !fitsSheet(piece, { width, height }));
  const shared = nested(small, { width, height }).map((page): Drawing => {
    const [first] = page.drawings;
    return {
      title:
        first !== undefined && page.drawings.length === 1 ? first.title : `${page.drawings.length} patterns`,
      outlines: page.drawings.flatMap(({ outlines }) => outlines),
      folds: page.drawings.flatMap(({ folds }) => folds),
      marks: page.drawings.flatMap(({ marks }) => marks),
      lettering: page.drawings.flatMap(({ lettering }) => lettering),
    };
  });
  return [...shared, ...large.map(({ drawing }) => drawing)].flatMap((drawing) => tilesOf(drawing, paper));
}

export function tilesOf(drawing: Drawing, paper: Paper): readonly Tile[] {
  const box = drawingBox(drawing);
  const [portrait, landscape] = [false, true].map((wide) => gridOf(box, paper, wide)) as [Grid, Grid];
  const grid = landscape.columns * landscape.rows < portrait.columns * portrait.rows ? landscape : portrait;
  const { columns, rows } = grid;
  return Array.from({ length: columns * rows }, (_, index) => {
    const [column, row] = [index % columns, Math.floor(index / columns)];
    return { landscape: grid === landscape, svg: tile(drawing, paper, box, grid, column, row) };
  });
}

interface Grid {
  /** Size of the page [mm]. */
  readonly page: readonly [width: number, height: number];
  /** What of the drawing each page shows [mm]. */
  readonly width: number;
  readonly height: number;
  readonly columns: number;
  readonly rows: number;
}

function gridOf(box: Box, { sides: [short, long] }: Paper, wide: boolean): Grid {
  const page = wide ? ([long, short] as const) : ([short, long] as const);
  const [width, height] = [page[0] - 2 * MARGIN, page[1] - 2 * MARGIN - FOOT];
  const count = (size: number, shown: number): number =>
    Math.max(1, Math.ceil((size - OVERLAP - 1e-9) / (shown - OVERLAP)));
  return {
    page,
    width,
    height,
    columns: count(box.right - box.left, width),
    rows: count(box.top - box.bottom, height),
  };
}

function tile(drawing: Drawing, paper: Paper, box: Box, grid: Grid, column: number, row: number): string {
  const { page, width, height, columns, rows } = grid;
  const left = box.left + column * (width - OVERLAP);
  const top = box.top - row * (height - OVERLAP);
  const shown: Box = { left, right: left + width, top, bottom: top - height };
  const window: Box = {
    left: left - MARGIN,
    right: left - MARGIN + page[0],
    top: top + MARGIN,
    bottom: top + MARGIN - page[1],
  };
  const bar = scaleBar(left, window.bottom + MARGIN);
  const of = columns * rows;
  const place = of === 1 ? '' : `: row ${row + 1} of ${rows}, column ${column + 1} of ${columns}`;
  const label: Lettering = {
    text: `${shortened(drawing.title, page[0] > 250 ? 60 : of === 1 ? 46 : 24)}${place}`,
    height: 2,
    upright: false,
    at: [(left + 104 + shown.right) / 2, window.bottom + MARGIN + 1],
  };
  const seams = of === 1 ? [] : overlapMarks(shown, column, row, columns, rows);
  const title = `${paper.name} ${drawing.title}${place}`;
  return svgOf(title, window, [drawing], {
    marks: [...bar.marks, ...seams],
    lettering: [...bar.lettering, label],
  });
}

const shortened = (text: string, most: number): string =>
  [...text].length <= most ? text : `${[...text].slice(0, most - 1).join('')}…`;

/** Lines at the edges of the shared strips, dashed, and crosses where they meet the page's corners. */
function overlapMarks(
  shown: Box,
  column: number,
  row: number,
  columns: number,
  rows: number,
): readonly Stroke[] {
  const xs = [shown.left, shown.right];
  const ys = [shown.bottom, shown.top];
  if (column > 0) xs.push(shown.left + OVERLAP);
  if (column + 1 < columns) xs.push(shown.right - OVERLAP);
  if (row > 0) ys.push(shown.top - OVERLAP);
  if (row + 1 < rows) ys.push(shown.bottom + OVERLAP);
  const crosses = xs.flatMap((x) =>
    ys.flatMap((y): readonly Stroke[] => [line([x - 3, y], [x + 3, y]), line([x, y - 3], [x, y + 3])]),
  );
  const dashes = (from: number, to: number, at: (along: number) => readonly [number, number]): Stroke[] =>
    Array.from({ length: Math.floor((to - from) / 8) }, (_, i) =>
      line(at(from + 8 * i), at(from + 8 * i + 3)),
    );
  return [
    ...crosses,
    ...(column + 1 < columns ? dashes(shown.bottom, shown.top, (y) => [shown.right - OVERLAP, y]) : []),
    ...(row + 1 < rows ? dashes(shown.left, shown.right, (x) => [x, shown.bottom + OVERLAP]) : []),
  ];
}
