/** A figure is data: Plotly traces and a layout, made by a pure function from numbers and a look. */

import type { Bag } from '../theme/axes.ts';

export interface Figure {
  readonly data: readonly Bag[];
  readonly layout: Bag;
}
