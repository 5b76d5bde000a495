/**
 * Round bores: A = (π/4) d². Ports and passages of another shape are told of by the circle of the same area.
 */

import { square } from '../../solver/index.ts';

/** Area of a circle of this diameter [m2]. */
export function areaOf(diameter: number): number {
  return (Math.PI / 4) * square(diameter);
}

/** Diameter of a circle of this area [m]. */
export function diameterOf(area: number): number {
  return Math.sqrt((4 * area) / Math.PI);
}
