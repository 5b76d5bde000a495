/**
 * Shaded bands under the curves, and the window the plug-back is wanted in: from transfer closing (TC) to exhaust
 * closing (EC).
 */

import type { Bag } from '../theme/axes.ts';
import type { PortEvents } from '../theme/events.ts';
import type { Look } from '../theme/look.ts';

const filled = (fillcolor: string): Bag => ({ fillcolor, line: { width: 0 }, layer: 'below' });

/** Over the whole height, from one place on the horizontal axis to another. */
export const uprightBand = (colour: string, from: number, to: number): Bag => ({
  type: 'rect',
  x0: from,
  x1: to,
  yref: 'paper',
  y0: 0,
  y1: 1,
  ...filled(colour),
});

/** Over the whole width, from one value to another. */
export const levelBand = (colour: string, from: number, to: number, yref = 'y'): Bag => ({
  type: 'rect',
  xref: 'paper',
  x0: 0,
  x1: 1,
  yref,
  y0: from,
  y1: to,
  ...filled(colour),
});

/** Between nought and a curve: its places and its heights. */
export const bandUnder = (colour: string, xs: readonly number[], ys: readonly number[]): Bag => ({
  type: 'path',
  path: `M${xs.map((x) => `${x},0`).join('L')}L${xs
    .map((x, i) => `${x},${ys[i] ?? 0}`)
    .reverse()
    .join('L')}Z`,
  ...filled(colour),
});

/** The window on a lying crank axis. */
export const window = (look: Look, events: PortEvents): Bag =>
  uprightBand(look.palette.useful, events.transfersClose, events.exhaustCloses);

/** The window on a standing axis of angles. */
export const levelWindow = (look: Look, transfersClose: number, exhaustCloses: number): Bag =>
  levelBand(look.palette.useful, transfersClose, exhaustCloses);
