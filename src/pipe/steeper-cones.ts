/**
 * A drafted chamber whose cones are no shallower than is usual. A long pipe for a slow engine, drawn by shares of its length, has
 * cones of a few degrees that send little back. Here they are cut to the angle, and the rest of the pipe closes up:
 *
 * - the diffuser's length goes to the header, up to some nine diameters from the port, and beyond that to the belly;
 * - the baffle keeps its middle, which the wave's is said to come from (Jennings 1973), so half of what it loses goes to the
 *   belly and the pipe ends the other half earlier;
 * - a stinger longer than fourteen of its bores, or shorter than nine and a half, becomes twelve (Jennings 1973).
 *
 * Least angles: common practice, no source.
 */

import type { Section } from '../model/section.ts';
import { coneLength } from './cone.ts';
import { lengthOf, stagesOf } from './places.ts';

/** Whole angles that cones have at least [deg]. */
const DIFFUSER = 6;
const BAFFLE = 17;
/** Header and passage together, at most, over the header's bore. */
const HEADER = 9;
const STINGER = { shortest: 9.5, longest: 14, usual: 12 } as const;

/** Sections from the flange on, behind a passage of this length [m]. */
export function withSteeperCones(sections: readonly Section[], passage: number): readonly Section[] {
  const first = sections[0]?.diameter[0] ?? 0;
  const header = lengthOf(stagesOf(sections, 'header'));
  const diffuser = tooLong(stagesOf(sections, 'diffuser'), DIFFUSER);
  const baffle = tooLong(stagesOf(sections, 'baffle'), BAFFLE);
  const toHeader = Math.min(diffuser.spare, Math.max(0, HEADER * first - passage - header));
  const toBelly = diffuser.spare - toHeader + baffle.spare / 2;
  const missing = header === 0 && toHeader > 0;
  const begun: readonly Section[] = missing
    ? [{ name: 'header', role: 'header', length: 0, diameter: [first, first], step: false }, ...sections]
    : sections;
  return begun.map((section) => ({ ...section, length: lengthWith(section) }));

  function lengthWith({ role, length, diameter: [bore] }: Section): number {
    if (role === 'header') return length + toHeader;
    if (role === 'diffuser') return length * diffuser.kept;
    if (role === 'belly') return length + toBelly;
    if (role === 'baffle') return length * baffle.kept;
    if (role !== 'stinger') return length;
    const usual = length >= STINGER.shortest * bore && length <= STINGER.longest * bore;
    return usual ? length : STINGER.usual * bore;
  }
}

/** How much a cone is longer than its least angle lets it be [m], and the share that stays. */
function tooLong(
  stages: readonly Section[],
  angleDeg: number,
): { readonly spare: number; readonly kept: number } {
  const length = lengthOf(stages);
  const [left, right] = [stages[0]?.diameter[0] ?? 0, stages.at(-1)?.diameter[1] ?? 0];
  const spare = Math.max(0, length - coneLength([left, right], angleDeg));
  return { spare, kept: length > 0 ? 1 - spare / length : 1 };
}
