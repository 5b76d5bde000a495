/** Words in a plot: beside a place, or at the end of a short leader to it. */

import type { Bag } from '../theme/axes.ts';

interface Place {
  readonly x: number | undefined;
  readonly y: number | null | undefined;
  /** Of the axis upright; else the first. */
  readonly yref?: string;
}

/** Words without a leader. `more` says where they stand: on axes or, by `xref` and `yref`, on the paper. */
export const words = (text: string, colour: string, more: Bag, size = 12): Bag => ({
  text,
  showarrow: false,
  font: { color: colour, size },
  ...more,
});

/** Words so many pixels to the right and down from a place, with a line to it. */
export const leader = (
  text: string,
  colour: string,
  place: Place,
  offset: readonly [right: number, down: number],
  more: Bag = {},
): Bag => ({
  text,
  ...place,
  ax: offset[0],
  ay: offset[1],
  arrowhead: 0,
  arrowwidth: 1,
  arrowcolor: colour,
  font: { color: colour, size: 12 },
  ...more,
});

/** On the top edge of the plot, at its right-hand end. */
export const topRight: Bag = {
  xref: 'paper',
  yref: 'paper',
  x: 1,
  y: 1,
  xanchor: 'right',
  yanchor: 'bottom',
  yshift: 3,
};

/** At the left-hand edge of the plot, so many pixels in. */
export const leftEdge = (xshift: number): Bag => ({ xref: 'paper', x: 0, xanchor: 'left', xshift });
