/**
 * How much header moves the landing, an estimate: the size of the steps that are then computed.
 *
 * A pipe of the same shape, longer in the ratio L'/L, does at N L/L' what the first did at N (similarity: time goes with
 * length over wave speed). So ΔL = L ΔN/N', with L from the port face to the middle of the baffle. A longer header does more
 * than a longer pipe of the same shape: the gas comes cooler to the cones and the wave runs back against a faster stream.
 * `headerShare` allows for it.
 */

import type { OutlineSection } from './record.ts';

/**
 * Share of the similar pipe's ΔL that the header alone takes [-]. Re-runs with headers 25 to 90 mm longer or shorter gave
 * 0.71 and 0.61 for 40 mm more and less of the invented draft A, 0.66 and 0.64 for the invented 250 and 50.
 */
export const HEADER_SHARE = 0.7;

/** From the port face to the middle of the baffle [m]; null without a baffle. */
export function reflectingLength(outline: readonly OutlineSection[]): number | null {
  const baffle = outline.filter((stretch) => stretch.role === 'baffle');
  const start = baffle[0]?.start;
  const end = baffle.at(-1)?.end;
  return start === undefined || end === undefined ? null : (start + end) / 2;
}

/** Length that the header gains so that what happens at one speed happens at another [m]; null if it cannot be told. */
export function headerFor(outline: readonly OutlineSection[], from: number, to: number): number | null {
  const length = reflectingLength(outline);
  return length === null || !(from > 0 && to > 0) ? null : HEADER_SHARE * length * (from / to - 1);
}
