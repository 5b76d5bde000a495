/** How a figure is to be drawn: colours, and the width it has on the screen. A narrow one drops what would crowd. */

import { dark, dashes, light, type Palette, type Quantity } from './palette.ts';

export interface Look {
  readonly palette: Palette;
  /** Width of the figure [px]. */
  readonly width: number;
  /** A phone, or a column of the printed page. */
  readonly narrow: boolean;
  /** For paper: lower, so that a sweep stays on two sheets. */
  readonly print: boolean;
}

export const lookFor = (width: number, isDark: boolean, print = false): Look => ({
  palette: isDark ? dark : light,
  width,
  narrow: width < 520,
  print,
});

export const FONT_STACK =
  '"Bahnschrift", "DIN Alternate", "Roboto Condensed", "Liberation Sans Narrow", "Arial Narrow", "Helvetica Neue", sans-serif';

export interface LineStyle {
  readonly color: string;
  readonly dash: string;
  readonly width: number;
}

/** The line of a quantity, in its colour and dash. */
export const lineOf = (look: Look, quantity: Quantity, width = 2): LineStyle => ({
  color: look.palette.line[quantity],
  dash: dashes[quantity],
  width,
});

/** Height of a figure [px]: on a screen, on a narrow one, on paper. */
export const heightOf = (look: Look, wide: number, narrow: number, print: number): number =>
  look.print ? print : look.narrow ? narrow : wide;
