/**
 * The flat pattern of a cone or a cylinder rolled from sheet.
 *
 * Rolling stretches the outside of the sheet and squeezes its inside; the middle keeps its length, so the pattern is
 * the development of the middle surface. The section's diameters d₁, d₂ are inside diameters (the gas sees those), L
 * its length along the axis, t the sheet's thickness:
 *
 *   tan α = (d₂ - d₁) / 2L      half angle
 *   R = d/2 + t / (2 cos α)     radius of the middle surface in the plane of an end
 *   s = L / cos α               slant length
 *   ρ = R / sin |α|             radius of the developed edge; ρ₂ - ρ₁ = s
 *   φ = 2π sin |α|              sweep of the annular sector
 *
 * so that the edges ρφ are the circumferences 2πR and the area is π(R₁ + R₂)s. Bends are taken as gradual, edges as
 * cut square to the sheet; the ends then stand off their plane by t/2 sin α, some hundredths of a millimetre. Cuts
 * are square to the axis. Derived here.
 */

import type { Section } from '../model/section.ts';

export type Development =
  | {
      readonly kind: 'sector';
      /** Slant length [m]. */
      readonly slant: number;
      /** Radii of the developed edges [m]. */
      readonly innerRadius: number;
      readonly outerRadius: number;
      /** Sweep of the sector [rad]. */
      readonly sweep: number;
      /** Area without the seam [m2]. */
      readonly area: number;
    }
  | {
      readonly kind: 'rectangle';
      readonly slant: number;
      /** Circumference [m]. */
      readonly width: number;
      readonly area: number;
    };

/**
 * A taper of less than this over the whole section [m] is a cylinder of the mean diameter: a hundredth of a
 * millimetre is beyond any bench, and the radius of the sector would grow without bound.
 */
const leastTaper = 1e-5;

/** Development of a section of a sheet of some thickness [m]. */
export function developmentOf(section: Section, thickness: number): Development {
  const [left, right] = section.diameter;
  if (Math.abs(right - left) < leastTaper) {
    const width = Math.PI * ((left + right) / 2 + thickness);
    return { kind: 'rectangle', slant: section.length, width, area: width * section.length };
  }
  const alpha = Math.atan2(Math.abs(right - left) / 2, section.length);
  const toMiddle = thickness / (2 * Math.cos(alpha));
  const small = Math.min(left, right) / 2 + toMiddle;
  const large = Math.max(left, right) / 2 + toMiddle;
  const slant = section.length / Math.cos(alpha);
  return {
    kind: 'sector',
    slant,
    innerRadius: small / Math.sin(alpha),
    outerRadius: large / Math.sin(alpha),
    sweep: 2 * Math.PI * Math.sin(alpha),
    area: Math.PI * (small + large) * slant,
  };
}
