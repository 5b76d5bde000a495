/** What is usual where nothing is known of an engine for which a first case is to be written. */

import type { Known } from '../../model/known-engine.ts';
import { areaOf, diameterOf } from '../../pipe/circle.ts';
import { crankOf, travelForDuration } from '../../timing/crank.ts';

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
 * from 26 to 33 deg. The flange has 0.75 of the window's width times height, within 0.56 to 0.62 of the bore. The
 * carburettor's bore is K √(V N) in mm with V in litres, N in rpm, K = 0.9. All of it common practice, no source.
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
  const rod = stated(known.rod, half(2 * stroke), 'two strokes');
  // Two points under what rings stand, which is less in a larger bore.
  const share = 0.68 - Math.min(0.04, Math.max(-0.04, 0.002 * (1000 * bore - 54)));
  const width = stated(known.exhaustWidth, half(share * bore), `${share.toFixed(2)} of the bore`);
  const crank = crankOf({ stroke, rod: rod.value, pinOffset: 0 });
  const height = stroke - travelForDuration(crank, exhaust.value);
  const flange = Math.min(0.62 * bore, Math.max(0.56 * bore, diameterOf(0.75 * width.value * height)));
  return {
    known,
    pistonSpeed,
    rod,
    exhaustDuration: exhaust,
    transferDuration: stated(known.transferDuration, exhaust.value - blowdown, speed),
    exhaustWidth: width,
    passageLength: stated(known.passageLength, half(1.2 * bore), '1.2 bores'),
    flange: stated(known.flange, half(flange), `${(flange / bore).toFixed(2)} of the bore`),
    carburettor: stated(
      known.carburettor,
      half(0.9e-3 * Math.sqrt(litres * rpm)),
      'for displacement and speed',
    ),
    trapped: stated(known.trapped, 7, 'mild, for a first run'),
  };
}
