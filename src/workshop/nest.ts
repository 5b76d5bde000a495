/**
 * Blanks on sheets, by shelves: the tallest first, each on the first shelf with room, else on a new shelf, else on a new
 * sheet (next-fit decreasing height with first fit; Coffman, Garey, Johnson & Tarjan 1980). A blank lies as drawn or turned
 * by a quarter, whichever is lower. Efficiency is what of the sheets' area becomes blanks. A shear wants such rows; a better
 * packing saves some sheet and no work.
 */

import { type Drawing, endOf, moved, type Stroke } from './drawing.ts';
import type { Pattern } from './pattern.ts';

export interface SheetSize {
  /** [mm] */
  readonly width: number;
  readonly height: number;
}

export interface NestedSheet {
  readonly drawings: readonly Drawing[];
  /** Indices of the blanks on it. */
  readonly blanks: readonly number[];
  /** Share of its area that becomes blanks [-]. */
  readonly efficiency: number;
}

/** Left free round every blank and along the sheet's edges [mm]. */
export const GAP = 5;

interface Shelf {
  readonly sheet: number;
  readonly bottom: number;
  readonly height: number;
  used: number;
}

type Piece = Pick<Pattern, 'drawing' | 'piece'>;

/** Whether a blank fits the sheet, one way or the other. */
export function fitsSheet({ width, height }: SheetSize, sheet: SheetSize): boolean {
  const room: SheetSize = { width: sheet.width - 2 * GAP, height: sheet.height - 2 * GAP };
  return (width <= room.width && height <= room.height) || (height <= room.width && width <= room.height);
}

/** Blanks that all fit the sheet, on as many sheets as they need. */
export function nested(pieces: readonly Piece[], sheet: SheetSize): readonly NestedSheet[] {
  const lying = pieces.map(({ piece: { width, height } }, index) => {
    const upright = width <= sheet.width - 2 * GAP && height <= sheet.height - 2 * GAP;
    const flat = height <= sheet.width - 2 * GAP && width <= sheet.height - 2 * GAP;
    const turned = flat && (!upright || width < height);
    return { index, turned, width: turned ? height : width, height: turned ? width : height };
  });
  lying.sort((a, b) => b.height - a.height || a.index - b.index);
  const shelves: Shelf[] = [];
  const tops: number[] = [];
  const sheets: { drawings: Drawing[]; blanks: number[]; area: number }[] = [];
  for (const { index, turned, width, height } of lying) {
    let shelf = shelves.find((one) => one.used + width <= sheet.width - GAP && height <= one.height);
    if (shelf === undefined) {
      let on = tops.findIndex((top) => top + height <= sheet.height - GAP);
      if (on < 0) {
        on = tops.push(GAP) - 1;
        sheets.push({ drawings: [], blanks: [], area: 0 });
      }
      shelf = { sheet: on, bottom: tops[on]!, height, used: GAP };
      tops[on] = shelf.bottom + height + GAP;
      shelves.push(shelf);
    }
    const { drawing, piece } = pieces[index]!;
    const target = sheets[shelf.sheet]!;
    const at = [shelf.used + (turned ? piece.height : 0), shelf.bottom] as const;
    target.drawings.push(moved(drawing, at, turned));
    target.blanks.push(index);
    target.area += drawing.outlines.reduce((sum, outline) => sum + areaOf(outline), 0);
    shelf.used += width + GAP;
  }
  return sheets.map(({ drawings, blanks, area }) => ({
    drawings,
    blanks,
    efficiency: area / (sheet.width * sheet.height),
  }));
}

/** Area within a closed outline [mm2], arcs exactly (Green's theorem). */
export function areaOf(outline: readonly Stroke[]): number {
  let sum = 0;
  const straight = ([x0, y0]: readonly [number, number], [x, y]: readonly [number, number]): void => {
    sum += (x0 * y - x * y0) / 2;
  };
  for (const stroke of outline) {
    if (stroke.kind === 'line') straight(stroke.from, stroke.to);
    else if (stroke.kind === 'path') {
      for (let i = 1; i < stroke.places.length; i += 1) straight(stroke.places[i - 1]!, stroke.places[i]!);
    } else {
      const sweep = (stroke.sweepDeg * Math.PI) / 180;
      const begin = endOf({ ...stroke, sweepDeg: 0 });
      straight(begin, endOf(stroke));
      sum += (stroke.radius ** 2 * (sweep - Math.sin(sweep))) / 2;
    }
  }
  return Math.abs(sum);
}
