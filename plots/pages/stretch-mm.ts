/** A section of the exhaust as figures draw it: its place and its bores in millimetres. */

import type { OutlineSection } from '../../src/findings/record.ts';
import type { Stretch } from '../marks/silhouette.ts';

export const stretchMm = (stretch: OutlineSection): Stretch => ({
  name: stretch.name,
  role: stretch.role,
  start: Number((1000 * stretch.start).toFixed(1)),
  end: Number((1000 * stretch.end).toFixed(1)),
  diameters: [
    Number((1000 * stretch.diameters[0]).toFixed(2)),
    Number((1000 * stretch.diameters[1]).toFixed(2)),
  ],
});
