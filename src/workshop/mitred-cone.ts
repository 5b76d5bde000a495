/**
 * A cone or cylinder between two planes, each square to its axis or a mitre, and its exact development.
 *
 * Along its axis z from one end of its centreline to the other the radius of the middle of the sheet is r = r₀ + kz,
 * k = tan α. Two cones of the same α whose axes meet at an angle β, both enveloping the same sphere round the point where
 * they meet, cut each other in a plane ellipse (Monge's theorem). The sphere has the radius R cos α, R the radius r there.
 * The plane is square to the line that halves the angle of the axes; it stands off the meeting point by
 *
 *   e = R k / ((1 + k²) cos β/2)       towards the narrow side,
 *
 * zero for a cylinder. With c = cos(φ - p), φ round the axis and p the side to which the pipe turns, the edges are
 *
 *   end    z = L - (e + R c sin β/2) / (cos β/2 + k c sin β/2)
 *   start  z =   - (e - R c sin β/2) / (cos β/2 - k c sin β/2)
 *
 * Developed, a point of the cone lies at the distance r / sin α from the apex, in the direction φ sin α. Area, edges and
 * volume are integrals over φ of periodic smooth functions, for which the trapezoidal rule converges faster than any power
 * of the step. The apex being in no plane of a wall, the volume up to a plane is a third of its height times its area, so
 * cones that meet in a mitre enclose what the straight cone does. Derived here.
 */

export interface Cut {
  /** Turn of the centreline at the joint, and to which side [rad]. */
  readonly turn: number;
  readonly plane: number;
}

export interface MitredCone {
  /** Length along the axis [m]. */
  readonly length: number;
  /** Radius of the surface at the start of the axis [m] and its growth along it [-]. */
  readonly radius: number;
  readonly slope: number;
  /** Null is a cut square to the axis. */
  readonly start: Cut | null;
  readonly end: Cut | null;
}

export type End = 'start' | 'end';

export const TURN = 2 * Math.PI;
const STEPS = 1440;

/** Place along the axis [m] of an edge in a direction round it [rad]. */
export function edgeAt(cone: MitredCone, end: End, phi: number): number {
  const cut = cone[end];
  const at = end === 'start' ? 0 : cone.length;
  if (cut === null) return at;
  const [cos, sin] = [Math.cos(cut.turn / 2), Math.sin(cut.turn / 2)];
  const radius = radiusAt(cone, at);
  const off = standOff(cone, radius, cos);
  const c = (end === 'start' ? -1 : 1) * Math.cos(phi - cut.plane);
  return at - (off + radius * c * sin) / (cos + cone.slope * c * sin);
}

function standOff({ slope }: MitredCone, radius: number, cos: number): number {
  return (radius * slope) / ((1 + slope * slope) * cos);
}

export function radiusAt({ radius, slope }: MitredCone, z: number): number {
  return radius + slope * z;
}

/** Slant length over length along the axis [-]. */
export function slantOf({ slope }: MitredCone): number {
  return Math.hypot(1, slope);
}

/** Directions [rad] in which both pieces of a mitre have the same points: inside and outside of the turn, and half-way. */
export function matchingDirections(cone: MitredCone, end: End): readonly number[] {
  const cut = cone[end];
  if (cut === null) return [0, 0.25, 0.5, 0.75].map((share) => share * TURN);
  const [cos, sin] = [Math.cos(cut.turn / 2), Math.sin(cut.turn / 2)];
  const radius = radiusAt(cone, end === 'start' ? 0 : cone.length);
  const off = standOff(cone, radius, cos);
  const sign = end === 'start' ? -1 : 1;
  // Measured in the plane from where its axis stands: r cos = (m cos β/2 - sign e sin β/2), and the plane gives r.
  const shapeRadius = radius * cos - cone.slope * off;
  const reach = (c: number): number => {
    const r = shapeRadius / (cos + sign * cone.slope * c * sin);
    return (r * c + sign * off * sin) / cos;
  };
  const across = ((reach(1) + reach(-1)) / 2) * cos - sign * off * sin;
  const r = (shapeRadius - sign * cone.slope * sin * across) / cos;
  const half = Math.acos(across / r);
  return [0, half, Math.PI, -half].map((from) => cut.plane + from);
}

/** Shortest and longest line of the surface along its slant [m]. */
export function slantRange(cone: MitredCone): readonly [least: number, most: number] {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let step = 0; step < STEPS; step += 1) {
    const phi = (step / STEPS) * TURN;
    const slant = slantOf(cone) * (edgeAt(cone, 'end', phi) - edgeAt(cone, 'start', phi));
    least = Math.min(least, slant);
    most = Math.max(most, slant);
  }
  return [least, most];
}

/** Area of the surface, which is that of its development [m2]. */
export function surfaceOf(cone: MitredCone): number {
  return around((phi) => {
    const [from, to] = [edgeAt(cone, 'start', phi), edgeAt(cone, 'end', phi)];
    return (slantOf(cone) * (to - from) * (radiusAt(cone, from) + radiusAt(cone, to))) / 2;
  });
}

/** Length of an edge [m]. */
export function edgeLength(cone: MitredCone, end: End): number {
  const h = 1e-4;
  return around((phi) => {
    const z = edgeAt(cone, end, phi);
    const change = (edgeAt(cone, end, phi + h) - edgeAt(cone, end, phi - h)) / (2 * h);
    return Math.hypot(radiusAt(cone, z), slantOf(cone) * change);
  });
}

/** Volume between the two planes [m3]. */
export function volumeOf(cone: MitredCone): number {
  const { radius, slope, length } = cone;
  if (Math.abs(slope) * length < 1e-9) {
    const middle = (end: End): number => around((phi) => edgeAt(cone, end, phi)) / TURN;
    return Math.PI * radius * radius * (middle('end') - middle('start'));
  }
  const apex = -radius / slope;
  const upTo = (end: End): number => {
    const cut = cone[end];
    const at = end === 'start' ? 0 : length;
    const cos = Math.cos((cut?.turn ?? 0) / 2);
    const onAxis = cut === null ? at : at - standOff(cone, radiusAt(cone, at), cos) / cos;
    const shadow = around((phi) => radiusAt(cone, edgeAt(cone, end, phi)) ** 2 / 2);
    return ((onAxis - apex) * shadow) / 3;
  };
  return upTo('end') - upTo('start');
}

/** Integral over a turn of a function of the direction. */
function around(value: (phi: number) => number): number {
  let sum = 0;
  for (let step = 0; step < STEPS; step += 1) sum += value((step / STEPS) * TURN);
  return (sum * TURN) / STEPS;
}
