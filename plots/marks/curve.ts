/** Curves and points. A gap in a curve is a gap in what was computed. */

import type { Bag } from '../theme/axes.ts';

export interface Stroke {
  readonly color: string;
  readonly width: number;
  readonly dash?: string;
  /** Straight from point to point, or in steps. */
  readonly shape?: 'linear' | 'hv';
}

export type Places = ArrayLike<number | null>;

export const curve = (x: Places, y: Places, line: Stroke, more: Bag = {}): Bag => ({
  type: 'scatter',
  mode: 'lines',
  x,
  y,
  line,
  ...more,
});

export const dots = (x: Places, y: Places, marker: Bag, more: Bag = {}): Bag => ({
  type: 'scatter',
  mode: 'markers',
  x,
  y,
  marker,
  ...more,
});

/** Speeds whose cycles did not settle are crossed out. */
export const CROSS = 'x-thin';

/** A curve with a halo of the paper's colour, so that it stands out on any shade. */
export const haloed = (paper: string, x: Places, y: Places, line: Stroke): Bag[] => {
  const shared = { hoverinfo: 'skip' };
  return [curve(x, y, { color: paper, width: 5 }, { ...shared, opacity: 0.75 }), curve(x, y, line, shared)];
};

/** What lies between two curves over the same places, filled; no curve of its own. */
export const shadeBetween = (
  x: Places,
  [low, high]: readonly [Places, Places],
  fillcolor: string,
  more: Bag = {},
): Bag[] => {
  const none = { color: 'rgba(0,0,0,0)', width: 0 };
  const shared = { hoverinfo: 'skip', ...more };
  return [curve(x, low, none, shared), curve(x, high, none, { ...shared, fill: 'tonexty', fillcolor })];
};
