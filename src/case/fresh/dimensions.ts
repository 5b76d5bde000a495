/** What is usual where nothing is known of an engine for which a first case is to be written. */

import type { Known } from '../../model/known-engine.ts';
import { areaOf } from '../../pipe/circle.ts';

/** A number of the file and where it is from. */
export interface Stated {
  readonly value: number;
  /** Why it was assumed; empty for what is known. */
  readonly assumed: string;
}

/** The dimensions of which everything else is made. */
export interface Dimensions {
  readonly known: Known;
  readonly rod: Stated;
  readonly exhaustDuration: Stated;
  readonly transferDuration: Stated;
  readonly exhaustWidth: Stated;
  readonly passageLength: Stated;
  readonly flange: Stated;
  readonly carburettor: Stated;
  readonly trapped: Stated;
  /** Mean piston speed at the speed aimed at [m/s]. */
  readonly pistonSpeed: number;
}

/**
 * Completes what is known. Ports last longer the faster the piston goes: 170 deg of exhaust at 12 m/s to 198 at 21, blowdown
 * from 26 to 33 deg. The carburettor's bore is K √(V N) in mm with V in litres, N in rpm, K = 0.9. All of it common practice,
 * no source.
 */
export function dimensionsOf(known: Known): Dimensions {
  const { bore, stroke, rpm } = known;
  const pistonSpeed = (stroke * rpm) / 30;
  const brisk = Math.min(1, Math.max(0, (pistonSpeed - 12) / 9));
  const litres = areaOf(bore) * stroke * 1e3;
  const half = (length: number): number => Math.round(length * 2000) / 2000;
  const stated = (value: number | undefined, usual: number, why: string): Stated =>
    value === undefined ? { value: usual, assumed: why } : { value, assumed: '' };
  const speed = `usual at ${pistonSpeed.toFixed(1)} m/s of piston`;
  const exhaust = stated(known.exhaustDuration, Math.round(170 + 28 * brisk), speed);
  const blowdown = 2 * Math.round(26 + 7 * brisk);
  return {
    known,
    pistonSpeed,
    rod: stated(known.rod, half(2 * stroke), 'two strokes'),
    exhaustDuration: exhaust,
    transferDuration: stated(known.transferDuration, exhaust.value - blowdown, speed),
    exhaustWidth: stated(known.exhaustWidth, half(0.68 * bore), '0.68 of the bore'),
    passageLength: stated(known.passageLength, half(1.2 * bore), '1.2 bores'),
    flange: stated(known.flange, half(0.6 * bore), '0.6 of the bore'),
    carburettor: stated(
      known.carburettor,
      half(0.9e-3 * Math.sqrt(litres * rpm)),
      'for displacement and speed',
    ),
    trapped: stated(known.trapped, 7, 'mild, for a first run'),
  };
}
