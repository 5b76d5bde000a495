/**
 * A section as a cone with straight walls, between the diameters d₁ and d₂ over the length L:
 *
 *   whole angle  2 atan((d₂ - d₁) / 2L)
 *   volume       (π/12) L (d₁² + d₁d₂ + d₂²)
 *   sheet        (π/2) (d₁ + d₂) √(L² + (d₂ - d₁)²/4)
 */

import type { Section } from '../model/section.ts';

export type Cone = Pick<Section, 'length' | 'diameter'>;

/** Whole angle between the walls of a cone [deg], above 0 where it widens. */
export function includedAngleDeg({ length, diameter: [left, right] }: Cone): number {
  return (360 / Math.PI) * Math.atan2(right - left, 2 * length);
}

/** Length of a cone between two diameters at a whole angle [m]. */
export function coneLength([left, right]: Cone['diameter'], angleDeg: number): number {
  return Math.abs(right - left) / 2 / Math.tan((angleDeg * Math.PI) / 360);
}

/** Volume inside [m3]. */
export function coneVolume({ length, diameter: [left, right] }: Cone): number {
  return (Math.PI / 12) * length * (left * left + left * right + right * right);
}

/** Sheet that the wall takes, its lateral surface [m2]. */
export function coneSheet({ length, diameter: [left, right] }: Cone): number {
  return 0.5 * Math.PI * (left + right) * Math.hypot(length, 0.5 * (right - left));
}
