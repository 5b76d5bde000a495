/**
 * One port window as it is cut, on the bore unrolled flat: its outline, and the area that the piston crown lays open.
 *
 * Depth h runs from the crown of the roof downwards, half width X(h) to either side of the middle:
 *
 *       roof arch     X = √(2Rh − h²)                        0 ≤ h ≤ h_t      R = (w²/4 + a²)/2a for a rise a
 *       top corner    X = w/2 − r_t + √(r_t² − (h_c − h)²)   h_t ≤ h ≤ h_c
 *       sides         X = w/2                                h_c ≤ h ≤ H − r_b
 *       bottom corner X = w/2 − r_b + √(r_b² − (h−H+r_b)²)   H − r_b ≤ h ≤ H
 *
 * The corner circle touches side and arch from inside: its centre lies h_c = R − √((R−r_t)² − (w/2−r_t)²) deep. A flat
 * roof is R = ∞, h_t = 0, h_c = r_t; a drilled hole is r_t = r_b = w/2 = H/2. Radii and arch are those of the unrolled
 * outline, where a template lies flat. Open area is 2∫X dh, a sum of circle segments and rectangles, exact.
 *
 * A chamfer that reaches c up the wall and cuts d deep into it slants by α = atan(d/c) against the wall. With the crown
 * beside it the passage is the slit at right angles to the slant, sin α times the strip of wall laid open from the
 * chamfer's upper edge, which has the roof's own shape. Lower down the wall's own window is the narrower. So
 *
 *       A(h) = max( sin α · A₀(h + c), A₀(h) ),     opening at h = −c
 *
 * which is exact while the crown stands within the chamfer (flat roof, plane section) and, below it, short of the
 * slant distance from crown to edge by at most a few tenths of d: no discharge coefficient is known so well.
 */
import { arcsine, cosine, sine, square } from '../../solver/index.ts';
import type { PortWindow } from '../model/port-window.ts';
import { halfChord, halfSegment } from './circle-segment.ts';
import type { Crank } from './crank.ts';
import { pistonTravel, travelForDuration } from './crank.ts';

export interface WindowShape {
  readonly name: string;
  readonly count: number;
  readonly bore: number;
  /** Width of one window along the bore's arc [m]. */
  readonly arcWidth: number;
  /** Width of one window straight across [m]. */
  readonly chordWidth: number;
  /** Travel of the crown at the roof's crown edge and at the floor [m]. */
  readonly roof: number;
  readonly floor: number;
  /** Roof's circle [m]; Infinity for a flat roof. */
  readonly archRadius: number;
  readonly cornerTop: number;
  readonly cornerBottom: number;
  /** Depths below the roof's crown where the arch meets the corner and the corner meets the side [m]. */
  readonly archEnd: number;
  readonly sideStart: number;
  readonly chamferHeight: number;
  /** Sine of the chamfer's slant against the wall [-]. */
  readonly chamferSine: number;
  /** Cosine of the stream's angle against the horizontal [-]. */
  readonly streamCosine: number;
}

/** Width along the bore's arc of a chord [m]. */
export function arcOfChord(chord: number, bore: number): number {
  if (!(chord <= bore)) throw new RangeError(`a chord of ${chord} m does not fit a bore of ${bore} m`);
  return bore * arcsine(chord / bore);
}

/** Chord under a width along the bore's arc [m]. */
export function chordOfArc(arc: number, bore: number): number {
  return bore * sine(Math.min(arc / bore, Math.PI / 2));
}

/** Travel of the crown at a window's roof edge [m]. */
export function roofTravel(crank: Crank, window: PortWindow): number {
  const { roof } = window;
  if (roof.by === 'travel') return roof.travel;
  if (roof.by === 'opening') return pistonTravel(crank, roof.openingDeg);
  return travelForDuration(crank, roof.durationDeg);
}

/** A window's outline in the barrel, as it stands there (a lift of the barrel is in the case's heights already). */
export function windowShape(crank: Crank, bore: number, window: PortWindow): WindowShape {
  const cut = roofTravel(crank, window);
  const height = window.height ?? crank.stroke - cut;
  const arcWidth = window.widthMeasure === 'arc' ? window.width : arcOfChord(window.width, bore);
  const half = arcWidth / 2;
  const { cornerTop, cornerBottom, roofArch, chamferHeight, chamferDepth } = window;
  const archRadius = roofArch > 0 ? (half * half + roofArch * roofArch) / (2 * roofArch) : Infinity;
  const { archEnd, sideStart } = cornerDepths(archRadius, half, cornerTop);
  if (!(height > 0 && arcWidth > 0)) throw new RangeError(`window ${window.name} has no area`);
  if (Math.max(cornerTop, cornerBottom, roofArch) > half * (1 + 1e-9)) {
    throw new RangeError(`window ${window.name}: a corner or arch is larger than half its width`);
  }
  if (sideStart + cornerBottom > height * (1 + 1e-9)) {
    throw new RangeError(`window ${window.name}: roof and corners need more than its height`);
  }
  return {
    name: window.name,
    count: window.count,
    bore,
    arcWidth,
    chordWidth: chordOfArc(arcWidth, bore),
    roof: cut,
    floor: cut + height,
    archRadius,
    cornerTop,
    cornerBottom,
    archEnd,
    sideStart,
    chamferHeight: chamferDepth > 0 ? chamferHeight : 0,
    chamferSine: chamferDepth > 0 ? chamferDepth / Math.hypot(chamferDepth, chamferHeight) : 0,
    streamCosine: cosine((window.upAngleDeg * Math.PI) / 180),
  };
}

/** Where the arch ends and the straight sides begin [m below the roof's crown]. */
function cornerDepths(archRadius: number, half: number, corner: number) {
  if (archRadius === Infinity || corner >= half) return { archEnd: 0, sideStart: corner };
  const inset = half - corner;
  const drop = Math.sqrt(Math.max(0, square(archRadius - corner) - inset * inset));
  // R − drop, written without the difference of two near equal radii.
  const centre = (2 * archRadius * corner - corner * corner + inset * inset) / (archRadius + drop);
  const touch = archRadius / (archRadius - corner);
  const across = inset * touch;
  const below = Math.sqrt(Math.max(0, archRadius * archRadius - across * across));
  return { archEnd: (across * across) / (archRadius + below), sideStart: centre };
}

/** Width of one window at a depth below its roof's crown [m]. */
export function outlineWidth(shape: WindowShape, depth: number): number {
  const height = shape.floor - shape.roof;
  if (!(depth >= 0 && depth <= height)) return 0;
  const half = shape.arcWidth / 2;
  if (depth < shape.archEnd) return 2 * halfChord(shape.archRadius, depth);
  const { cornerTop: rt, cornerBottom: rb } = shape;
  const top = depth < shape.sideStart ? rt - halfChord(rt, depth - (shape.sideStart - rt)) : 0;
  const bottom = depth > height - rb ? rb - halfChord(rb, rb + depth - (height - rb)) : 0;
  return 2 * (half - Math.max(top, bottom));
}

/** Area of one window above a depth below its roof's crown, no chamfer [m2]. */
export function outlineArea(shape: WindowShape, depth: number): number {
  if (!(depth > 0)) return 0;
  const height = shape.floor - shape.roof;
  const h = Math.min(depth, height);
  const half = shape.arcWidth / 2;
  const { archEnd, sideStart, cornerTop: rt, cornerBottom: rb } = shape;
  let area = archEnd > 0 ? halfSegment(shape.archRadius, Math.min(h, archEnd)) : 0;
  if (h > archEnd) {
    const end = Math.min(h, sideStart);
    const crown = sideStart - rt;
    area += (half - rt) * (end - archEnd);
    if (rt > 0) area += halfSegment(rt, end - crown) - halfSegment(rt, archEnd - crown);
  }
  const sideEnd = height - rb;
  if (h > sideStart) area += half * (Math.min(h, sideEnd) - sideStart);
  if (rb > 0 && h > sideEnd) {
    area += (half - rb) * (h - sideEnd);
    area += halfSegment(rb, rb + (h - sideEnd)) - halfSegment(rb, rb);
  }
  return 2 * area;
}

/** Area on the bore's wall that the crown lays open at a travel, all `count` windows and their chamfer [m2]. */
export function windowArea(shape: WindowShape, travel: number): number {
  const depth = travel - shape.roof;
  const plain = outlineArea(shape, depth);
  if (shape.chamferSine === 0) return shape.count * plain;
  const slit = shape.chamferSine * outlineArea(shape, depth + shape.chamferHeight);
  return shape.count * Math.max(plain, slit);
}

/** Travel at which gas begins to pass: the chamfer's upper edge, or the roof [m]. */
export function firstOpening(shape: WindowShape): number {
  return shape.roof - shape.chamferHeight;
}
