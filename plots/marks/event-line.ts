/** Straight lines across a plot: port events, targets, levels that a curve is read against. */

import type { Bag } from '../theme/axes.ts';
import type { Stroke } from './curve.ts';

/** Across the whole width at a value; `more` may lay it below the curves or on another axis. */
export const levelLine = (line: Stroke, at: number, more: Bag = {}): Bag => ({
  type: 'line',
  xref: 'paper',
  x0: 0,
  x1: 1,
  y0: at,
  y1: at,
  line,
  ...more,
});

/** Over the whole height at a place on the horizontal axis. */
export const uprightLine = (line: Stroke, at: number): Bag => ({
  type: 'line',
  x0: at,
  x1: at,
  yref: 'paper',
  y0: 0,
  y1: 1,
  line,
});

/** From one place to another at a value. */
export const stretchLine = (line: Stroke, from: number, to: number, at: number): Bag => ({
  type: 'line',
  x0: from,
  x1: to,
  y0: at,
  y1: at,
  line,
});
