/** What is usual where nothing is known of an engine for which a first case is to be written. */

import type { Known } from '../../model/known-engine.ts';
import { areaOf, diameterOf } from '../../pipe/circle.ts';
import { crankOf, travelForDuration } from '../../timing/crank.ts';
import { usualBlowdown, usualExhaustDuration, usualPassageExit } from '../../timing/usual-ports.ts';

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
  /** Area of the exhaust along its stream, fully open [m2]. */
  readonly portArea: number;
  /** Mean piston speed at the speed aimed at [m/s]. */
  readonly pistonSpeed: number;
}

/** What is left of a window's width times its height when corners and the stream's direction are taken off [-]. */
const CORNERED = 0.92;

/**
 * Completes what is known. Ports last longer the faster the piston goes. The flange has its usual share of the window's area,
 * within 0.50 to 0.62 of the bore. The carburettor's bore is K √(V N) in mm with V in litres, N in rpm, K = 0.9. All of it
 * common practice, no source.
 */
export function dimensionsOf(known: Known): Dimensions {
  const { bore, stroke, rpm } = known;
  const pistonSpeed = (stroke * rpm) / 30;
  const litres = areaOf(bore) * stroke * 1e3;
  const half = (length: number): number => Math.round(length * 2000) / 2000;
  const stated = (value: number | undefined, usual: number, why: string): Stated =>
    value === undefined ? { value: usual, assumed: why } : { value, assumed: '' };
  const speed = `usual at ${pistonSpeed.toFixed(1)} m/s of piston`;
  const exhaust = stated(known.exhaustDuration, Math.round(usualExhaustDuration(pistonSpeed)), speed);
  const blowdown = 2 * Math.round(usualBlowdown(pistonSpeed));
  const rod = stated(known.rod, half(2 * stroke), 'two strokes');
  // Two points under what rings stand, which is less in a larger bore.
  const share = 0.68 - Math.min(0.04, Math.max(-0.04, 0.002 * (1000 * bore - 54)));
  const width = stated(known.exhaustWidth, half(share * bore), `${share.toFixed(2)} of the bore`);
  const crank = crankOf({ stroke, rod: rod.value, pinOffset: 0 });
  const height = stroke - travelForDuration(crank, exhaust.value);
  const portArea = CORNERED * width.value * height;
  const flange = Math.min(
    0.62 * bore,
    Math.max(0.5 * bore, diameterOf(usualPassageExit(pistonSpeed) * portArea)),
  );
  return {
    known,
    portArea,
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
