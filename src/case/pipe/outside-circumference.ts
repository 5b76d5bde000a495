/**
 * A finished pipe by what a tape around it reads. On a cone of half angle α the sheet of thickness t lies t / cos α
 * outwards of the inside, square to the axis, and inside and outside taper alike:
 *
 *   tan α = (C₂ - C₁) / 2πL        d = C / π - 2t / cos α
 *
 * Derived here. A tape reads to some half millimetre, which is 0.2 mm of diameter.
 */

import { bySort, list } from '../keys/branches.ts';
import { quantity } from '../keys/leaves.ts';
import { optional } from '../keys/record.ts';
import { checked, type Judge } from '../keys/schema.ts';
import { writeQuantity } from '../text/units.ts';
import type { StatedSection } from './section-schema.ts';

type Pair = readonly [left: number, right: number];

const around = quantity('length', { above: '0 mm', below: '6 m' });

export const circumference = optional(
  bySort<Pair>({
    scalar: checked(around, (value): Pair => [value, value]),
    list: checked(list(around, 2, 2), ([left, right]): Pair => [left!, right!]),
  }),
  'Outer circumference, one or [left, right], in place of the inner diameter; the sheet is taken off.',
);

export const outsideKeys = { keys: ['diameter', 'to', 'circumference'], needed: true } as const;

/** A section may be no narrower inside [m]. */
const NARROWEST = 1e-3;

interface Measured extends StatedSection {
  readonly length: number;
  readonly circumference: Pair | null;
}

/** Inside diameters [m] of a section measured round the outside of its sheet [m]. */
export function insideDiameters([left, right]: Pair, length: number, sheet: number): Pair {
  const off = 2 * sheet * Math.hypot(1, (right - left) / (2 * Math.PI * length));
  return [left / Math.PI - off, right / Math.PI - off];
}

/** The sections with inside diameters in place of circumferences. */
export function bySheet<T extends Measured>(
  sections: readonly T[],
  sheet: number | null,
  judge: Judge,
): readonly T[] | undefined {
  let sound = true;
  const inside = sections.map((section, index) => {
    if (section.circumference === null) return section;
    const path = ['sections', index, 'circumference'];
    if (sheet === null) {
      judge.refuse(
        path,
        'needs the thickness of the sheet',
        'add "sheet: 0.8 mm", or what it is, to the pipe',
      );
      sound = false;
      return section;
    }
    const diameter = insideDiameters(section.circumference, section.length, sheet);
    if (Math.min(...diameter) < NARROWEST) {
      const [least] = [Math.min(...section.circumference)];
      judge.refuse(path, `${writeQuantity(least, 'length', 'mm', 6)} leaves no pipe inside the sheet`);
      sound = false;
    }
    return { ...section, diameter };
  });
  return sound ? inside : undefined;
}
