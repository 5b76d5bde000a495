/**
 * The centreline of a pipe with bends, as it is welded: straight pieces that meet at an angle. A bend of angle θ and N
 * segments has N + 1 joints; those between its segments turn by θ/N, its first and its last by θ/2N, so that every segment
 * is alike. A segment is as long as its share of the arc, rθ/N, so the length along the centreline stays what it is.
 *
 * A frame is carried along: T with the flow, U up, W to the right. A bend turns towards D = U cos p + W sin p:
 *
 *   T' = T cos β + D sin β        D' = D cos β - T sin β
 *
 * and what is square to both stays. Derived here.
 */

import type { Bend } from '../model/pipe.ts';

export type Vector = readonly [x: number, y: number, z: number];

/** A joint at which the centreline turns. */
export interface Mitre {
  /** Along the centreline from the flange [m]. */
  readonly at: number;
  /** How far it turns, and to which side [rad]. */
  readonly turn: number;
  readonly plane: number;
  /** Which bend it is of, counted from 0. */
  readonly bend: number;
}

export interface Frame {
  readonly origin: Vector;
  readonly along: Vector;
  readonly up: Vector;
  readonly right: Vector;
}

/** The flange: flow along x, up is y, right is z. */
export const flange: Frame = { origin: [0, 0, 0], along: [1, 0, 0], up: [0, 1, 0], right: [0, 0, 1] };

/** A smooth bend cannot be rolled of sheet: it is mitred so that no joint turns further than this [deg]. */
export const SMOOTH_TURN_DEG = 10;

/** Segments that a bend is made of. */
export function segmentsOf(bend: Bend): number {
  return bend.segments ?? Math.max(1, Math.ceil(bend.angleDeg / SMOOTH_TURN_DEG - 1e-9));
}

export function mitresOf(bends: readonly Bend[]): readonly Mitre[] {
  return bends.flatMap((bend, index) => {
    const count = segmentsOf(bend);
    const angle = (bend.angleDeg * Math.PI) / 180;
    const plane = (bend.planeDeg * Math.PI) / 180;
    return Array.from({ length: count + 1 }, (_, joint): Mitre => {
      const half = joint === 0 || joint === count;
      return {
        at: bend.at + (joint * bend.radius * angle) / count,
        turn: angle / count / (half ? 2 : 1),
        plane,
        bend: index,
      };
    });
  });
}

/** A vector plus multiples of others. */
export function plus(base: Vector, ...terms: readonly (readonly [factor: number, vector: Vector])[]): Vector {
  return terms.reduce<Vector>(
    ([x, y, z], [factor, [dx, dy, dz]]) => [x + factor * dx, y + factor * dy, z + factor * dz],
    base,
  );
}

const nothing: Vector = [0, 0, 0];

/** The frame a distance on [m]. */
export function advanced(frame: Frame, distance: number): Frame {
  return { ...frame, origin: plus(frame.origin, [distance, frame.along]) };
}

/** The frame behind a joint. */
export function turned(frame: Frame, { turn, plane }: Pick<Mitre, 'turn' | 'plane'>): Frame {
  const { along, up, right } = frame;
  const [cos, sin] = [Math.cos(plane), Math.sin(plane)];
  const side = plus(nothing, [cos, up], [sin, right]);
  const square = plus(nothing, [-sin, up], [cos, right]);
  const newSide = plus(nothing, [Math.cos(turn), side], [-Math.sin(turn), along]);
  return {
    origin: frame.origin,
    along: plus(nothing, [Math.cos(turn), along], [Math.sin(turn), side]),
    up: plus(nothing, [cos, newSide], [-sin, square]),
    right: plus(nothing, [sin, newSide], [cos, square]),
  };
}
