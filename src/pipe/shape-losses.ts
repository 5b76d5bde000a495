/**
 * What the shape of a pipe costs its stream beside the friction of its wall, as coefficients of G = loss |u| u in the cells [1/m],
 * u the velocity there. They are of steady streams; a wave that runs through gas at rest meets none.
 *
 *   widening  A stream that slows down in a cone of whole angle theta loses K (u1 - u)^2/2 from its narrow end (u1) on,
 *             K = 3.5 tan(theta/2)^1.22 for 7.5 to 35 degrees (A. H. Gibson, Engineering 1912; value from memory). Below, it is
 *             taken as it stands and goes to none, for what such cones cost is their wall's friction; above, up to
 *             K = 1, the loss of a sudden widening. A cone acts on streams that go with its widening alone.
 *   bend      K u^2/2, spread over its length. Smooth, of angle d and radius over diameter R/D: K = a b, a = 0.9 sin d up to 70
 *             degrees, 1 at 90, 0.7 + 0.35 d/90 from 100 on, b = 0.21 (R/D)^-1/2, or (R/D)^-5/2 where R/D < 1 (Idelchik, Handbook
 *             of Hydraulic Resistance, diagram 6-1, values from memory). Mitred: each joint that turns by t costs
 *             0.946 sin^2(t/2) + 2.047 sin^4(t/2) (Weisbach; value from memory), in all no less than smooth. N segments have
 *             N + 1 joints, the first and the last of half the turn, as the patterns are cut.
 */

import { type DuctGeometry, diameterAt, power, sine, square } from '../../solver/index.ts';
import type { Bend, Pipe } from '../model/pipe.ts';
import { areaOf } from './circle.ts';

/** A straight-sided stretch by its places in a duct and the diameters of its ends [m]. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
  readonly diameter: readonly [left: number, right: number];
}

/** A bend by its places in a duct and its loss [m, -]. */
export interface PlacedBend {
  readonly start: number;
  readonly end: number;
  readonly loss: number;
}

/** Losses of the cells where the stream runs to the right, and to the left [1/m]. */
export interface ShapeLosses {
  readonly ahead: Float64Array;
  readonly back: Float64Array;
}

/** Loss of a widening by the tangent of half its whole angle, over the dynamic pressure of the difference of velocities [-]. */
export function wideningLoss(slope: number): number {
  return Math.min(1, 3.5 * power(slope, 1.22));
}

/** Loss of a smooth bend by its angle [deg] and the radius of its centreline over the diameter, in dynamic pressures [-]. */
export function smoothBendLoss(angleDeg: number, radiusOverDiameter: number): number {
  return turnFactor(angleDeg) * 0.21 * power(radiusOverDiameter, radiusOverDiameter < 1 ? -2.5 : -0.5);
}

function turnFactor(angleDeg: number): number {
  if (angleDeg <= 70) return 0.9 * sine((angleDeg * Math.PI) / 180);
  if (angleDeg >= 100) return 0.7 + (0.35 * angleDeg) / 90;
  // Straight from 70 to 90 and from there to 100 degrees, where the two laws do not quite meet.
  const [low, high] = [0.9 * sine((70 * Math.PI) / 180), 0.7 + 35 / 90];
  return angleDeg <= 90 ? low + ((angleDeg - 70) / 20) * (1 - low) : 1 + ((angleDeg - 90) / 10) * (high - 1);
}

/** Loss of one sharp joint that turns by an angle, in dynamic pressures [rad, -]. */
export function mitreLoss(turn: number): number {
  const s = square(sine(turn / 2));
  return 0.946 * s + 2.047 * s * s;
}

/** Loss of a bend in a pipe of a diameter [m], in dynamic pressures [-]. */
export function bendLoss({ angleDeg, radius, segments }: Bend, diameter: number): number {
  const smooth = smoothBendLoss(angleDeg, radius / diameter);
  if (segments === null) return smooth;
  const turn = (angleDeg * Math.PI) / 180 / segments;
  return Math.max(smooth, (segments - 1) * mitreLoss(turn) + 2 * mitreLoss(turn / 2));
}

/** A pipe's bends with their losses, counted from so far before the flange [m]. */
export function placedBends(
  { bends, sections }: Pick<Pipe, 'bends' | 'sections'>,
  flange: number,
): PlacedBend[] {
  return bends.map((bend) => {
    const end = bend.at + (bend.radius * bend.angleDeg * Math.PI) / 180;
    const diameter = diameterAt(sections, 0.5 * (bend.at + end));
    return { start: flange + bend.at, end: flange + end, loss: bendLoss(bend, diameter) };
  });
}

/** The losses of a duct's cells from its cones and bends, with the factors on either [-]. */
export function shapeLosses(
  geometry: DuctGeometry,
  stretches: readonly Stretch[],
  bends: readonly PlacedBend[],
  factor: { readonly cone: number; readonly bend: number },
): ShapeLosses {
  const ahead = new Float64Array(geometry.cells);
  const back = new Float64Array(geometry.cells);
  for (const stretch of stretches) {
    const [left, right] = stretch.diameter;
    if (left !== right) addWidening(right > left ? ahead : back, geometry, stretch, factor.cone);
  }
  for (const bend of bends) {
    const perMetre = (0.5 * factor.bend * bend.loss) / (bend.end - bend.start);
    eachCell(geometry, bend, (i, from, to) => {
      const share = (perMetre * (to - from)) / geometry.dx;
      ahead[i] = ahead[i]! + share;
      back[i] = back[i]! + share;
    });
  }
  return { ahead, back };
}

/** Adds to each cell what is lost between its faces, K (u1 - u)^2/2 there less here, over the square of its own velocity. */
function addWidening(into: Float64Array, geometry: DuctGeometry, stretch: Stretch, factor: number): void {
  const { start, end } = stretch;
  const [left, right] = stretch.diameter;
  const K = factor * wideningLoss(Math.abs(right - left) / (2 * (end - start)));
  const narrow = areaOf(Math.min(left, right));
  const lost = (x: number): number => {
    const area = areaOf(left + ((right - left) * (x - start)) / (end - start));
    return 0.5 * K * square(1 - narrow / area);
  };
  eachCell(geometry, stretch, (i, from, to) => {
    const mean = geometry.volume[i]! / geometry.dx;
    const over = Math.abs(lost(to) - lost(from)) * square(mean / narrow);
    into[i] = into[i]! + over / geometry.dx;
  });
}

/** Visits the cells that a stretch covers, with the part that each has of it [m]. */
function eachCell(
  { cells, dx }: DuctGeometry,
  { start, end }: { readonly start: number; readonly end: number },
  visit: (i: number, from: number, to: number) => void,
): void {
  for (let i = 0; i < cells; i++) {
    const from = Math.max(start, i * dx);
    const to = Math.min(end, (i + 1) * dx);
    if (to > from) visit(i, from, to);
  }
}
