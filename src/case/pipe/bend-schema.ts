/**
 * Bends of a pipe along its centreline from the flange. A bend begins `at`, takes radius × angle of the centreline, and has
 * to end before the next one begins and before the pipe does. Its radius is that of the centreline, so it has to be larger
 * than half the pipe is wide there, or the inside of the bend would fold.
 */

import type { Bend } from '../../model/pipe.ts';
import type { Section } from '../../model/section.ts';
import { placed } from '../../pipe/places.ts';
import { list } from '../keys/branches.ts';
import { count, quantity } from '../keys/leaves.ts';
import { optional, record, required } from '../keys/record.ts';
import { checked, type Judge, type Schema } from '../keys/schema.ts';
import { writeQuantity } from '../text/units.ts';

export const bendList: Schema<readonly Bend[]> = list(
  checked(
    record('a bend', {
      at: required(
        quantity('length', { atLeast: '0 mm' }),
        'Where it begins, along the centreline from the flange.',
      ),
      angle: required(quantity('angle', { above: '0 deg', atMost: '180 deg' }), 'How far it turns.'),
      radius: required(quantity('length', { above: '0 mm', below: '20 m' }), 'Radius of its centreline.'),
      plane: required(
        quantity('angle', { atLeast: '-360 deg', atMost: '360 deg' }),
        'To which side it turns, seen along the flow: 0 deg up, 90 deg right, 180 deg down.',
      ),
      segments: optional(count(1, 60), 'Straight pieces that it is mitred of; left out, it is smooth.'),
    }),
    ({ at, angle, radius, plane, segments }): Bend => ({
      at,
      angleDeg: angle,
      radius,
      planeDeg: plane,
      segments,
    }),
  ),
  0,
  30,
);

/** Length of the centreline in a bend [m]. */
function lengthOf({ angleDeg, radius }: Bend): number {
  return (radius * angleDeg * Math.PI) / 180;
}

const millimetres = (value: number): string => writeQuantity(value, 'length', 'mm', 5);

export function bendsFit(bends: readonly Bend[], sections: readonly Section[], judge: Judge): boolean {
  const total = sections.reduce((sum, { length }) => sum + length, 0);
  let before = 0;
  for (const [index, bend] of bends.entries()) {
    const end = bend.at + lengthOf(bend);
    if (bend.at < before - 1e-9) {
      judge.refuse(
        ['bends', index, 'at'],
        `begins before the bend ahead of it ends, at ${millimetres(before)}`,
        'a bend takes radius times angle of the centreline',
      );
      return false;
    }
    if (end > total + 1e-9) {
      judge.refuse(
        ['bends', index, 'at'],
        `the bend ends at ${millimetres(end)}, beyond the end of the pipe at ${millimetres(total)}`,
      );
      return false;
    }
    const widest = widestBetween(sections, bend.at, end);
    if (bend.radius <= widest / 2) {
      judge.refuse(
        ['bends', index, 'radius'],
        `is too tight: the pipe is ${millimetres(widest)} wide there, so its inside would fold`,
        `the radius of the centreline has to be above ${millimetres(widest / 2)}`,
      );
      return false;
    }
    before = end;
  }
  return true;
}

/** Largest inside diameter from one place of the centreline to another [m]. */
function widestBetween(sections: readonly Section[], from: number, to: number): number {
  let widest = 0;
  for (const { start, end, length, diameter } of placed(sections)) {
    const [low, high] = [Math.max(from, start), Math.min(to, end)];
    for (const at of low <= high ? [low, high] : []) {
      widest = Math.max(widest, diameter[0] + ((diameter[1] - diameter[0]) * (at - start)) / length);
    }
  }
  return widest;
}
