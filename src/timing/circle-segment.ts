/**
 * Area under the rim of a circle, the one integral that every rounded window edge needs.
 *
 * A circle of radius r has at depth d below its crown the half chord √(2rd − d²). Its integral from the crown is half a
 * segment, (r²/4)(x − sin x), with x the angle that the whole chord spans at the centre, sin(x/4) = √(d/2r). The difference x − sin x
 * loses its digits for a small angle (a flat arch has a radius of metres), so a series takes over there.
 */

import { arcsine, sine } from '../../solver/index.ts';

/** x − sin x to full relative precision, x ≥ 0 [-]. */
export function arcExcess(x: number): number {
  if (x > 0.7) return x - sine(x);
  const y = x * x;
  const tail = 1 - (y / 110) * (1 - (y / 156) * (1 - y / 210));
  return ((x * y) / 6) * (1 - (y / 20) * (1 - (y / 42) * (1 - (y / 72) * tail)));
}

/** Half the chord of a circle at a depth below its crown [m]. */
export function halfChord(radius: number, depth: number): number {
  return Math.sqrt(Math.max(0, depth * (2 * radius - depth)));
}

/** Half the segment of a circle above a depth below its crown [m2]. */
export function halfSegment(radius: number, depth: number): number {
  if (!(depth > 0)) return 0;
  const share = Math.min(1, depth / (2 * radius));
  return ((radius * radius) / 4) * arcExcess(4 * arcsine(Math.sqrt(share)));
}
