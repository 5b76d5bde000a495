/**
 * Area of a window as its stream sees it, at right angles to the flow.
 *
 * The window is cut in a curved wall, the stream leaves in one direction through the window's middle. Looked at from
 * there an outline of arc width b at some depth is only as wide as its chord, D sin(b/D) in a bore D, and a stream that
 * rises at an angle υ sees the height times cos υ:
 *
 *       A = cos υ ∫ D sin(2X/D) dh          with X(h) the half width of `window.ts`
 *
 * On the sides the integrand is constant. On an arc of radius r the depth is written d = 2r sin²t, half chord r sin 2t, after
 * which everything is smooth and Gauss's rule takes it to round-off.
 */
import { arcsine, sine } from '../../solver/index.ts';
import { gauss } from './gauss.ts';
import type { WindowShape } from './window.ts';

/** ∫ D sin(2X/D) dd along an arc from depth d₀ to d₁ below its own crown, X = offset + half chord [m2]. */
function arcPart(bore: number, radius: number, offset: number, from: number, to: number): number {
  if (!(radius > 0 && to > from)) return 0;
  const place = (depth: number) => arcsine(Math.sqrt(Math.min(1, Math.max(0, depth / (2 * radius)))));
  const [a, b] = [place(from), place(to)];
  const middle = (a + b) / 2;
  const integrand = (t: number) => {
    const chord = radius * sine(2 * t);
    return bore * sine((2 * (offset + chord)) / bore) * 2 * chord;
  };
  return gauss(integrand, a, middle) + gauss(integrand, middle, b);
}

/** Outline above a depth below the roof's crown, seen along the window's middle, level [m2]. */
export function chordArea(shape: WindowShape, depth: number): number {
  if (!(depth > 0)) return 0;
  const { bore, archEnd, archRadius, sideStart, cornerTop: rt, cornerBottom: rb } = shape;
  const half = shape.arcWidth / 2;
  const height = shape.floor - shape.roof;
  const h = Math.min(depth, height);
  const sideEnd = height - rb;
  let area = archEnd > 0 ? arcPart(bore, archRadius, 0, 0, Math.min(h, archEnd)) : 0;
  const crown = sideStart - rt;
  area += arcPart(bore, rt, half - rt, archEnd - crown, Math.min(h, sideStart) - crown);
  if (h > sideStart) area += shape.chordWidth * (Math.min(h, sideEnd) - sideStart);
  if (h > sideEnd) area += arcPart(bore, rb, half - rb, rb, rb + h - sideEnd);
  return area;
}

/** Area of all `count` windows and their chamfer that the stream sees with the crown at a travel [m2]. */
export function streamArea(shape: WindowShape, travel: number): number {
  const depth = travel - shape.roof;
  const scale = shape.count * shape.streamCosine;
  const plain = chordArea(shape, depth);
  if (shape.chamferSine === 0) return scale * plain;
  return scale * Math.max(plain, shape.chamferSine * chordArea(shape, depth + shape.chamferHeight));
}
