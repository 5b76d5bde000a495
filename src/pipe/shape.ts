/**
 * Changes of a pipe's shape that keep it joined. A new belly carries the cones with it: every diameter between the first
 * diffuser's mouth d₁ and the belly B keeps its place in proportion, d' = d₁ + (d - d₁)(B' - d₁)/(B - d₁), and so does every
 * one between belly and tail; a new tail does the same to the baffle, and the stinger takes its bore. Wall temperatures given
 * at positions move along with the pipe's length.
 */

import type { Pipe } from '../model/pipe.ts';
import type { Section } from '../model/section.ts';
import { endDiameter, largestDiameter, lengthOf, stagesOf } from './places.ts';

type Pair = readonly [left: number, right: number];

function withSections(pipe: Pipe, change: (section: Section, index: number) => Section): Pipe {
  return { ...pipe, sections: pipe.sections.map(change) };
}

export function withLength(pipe: Pipe, index: number, length: number): Pipe {
  return withWallOf(
    pipe,
    withSections(pipe, (section, k) => (k === index ? { ...section, length } : section)),
  );
}

/** A pipe with the wall temperatures of another, their positions drawn out or together to its length. */
export function withWallOf(from: Pipe, pipe: Pipe): Pipe {
  const { wall } = from;
  if (wall.by !== 'given') return { ...pipe, wall };
  const ratio = lengthOf(pipe.sections) / lengthOf(from.sections);
  const at = wall.at.map(({ position, temperature }) => ({ position: position * ratio, temperature }));
  return { ...pipe, wall: { by: 'given', at } };
}

/** Diameter at a section's right end, and of what is joined to it there. */
export function withEnd(pipe: Pipe, index: number, diameter: number): Pipe {
  return withSections(pipe, (section, k) => {
    if (k === index) return { ...section, diameter: [section.diameter[0], diameter] };
    const joined = k === index + 1 && !section.step;
    return joined ? { ...section, diameter: [diameter, section.diameter[1]] } : section;
  });
}

/** The pipe with another diameter at the flange. */
export function withMouth(pipe: Pipe, diameter: number): Pipe {
  return withSections(pipe, (section, k) =>
    k === 0 ? { ...section, diameter: [diameter, section.diameter[1]] } : section,
  );
}

/** The pipe's belly: its largest diameter [m]. */
export function bellyDiameter(pipe: Pipe): number {
  return largestDiameter(pipe.sections);
}

/** The bore that the pipe ends with: the stinger's, or the end of what there is [m]. */
export function tailDiameter(pipe: Pipe): number {
  return stagesOf(pipe.sections, 'stinger')[0]?.diameter[0] ?? endDiameter(pipe);
}

const scaled = (d: number, fixed: number, from: number, to: number): number =>
  from === fixed ? d : fixed + ((d - fixed) * (to - fixed)) / (from - fixed);

const both = ([left, right]: Pair, change: (d: number) => number): Pair => [change(left), change(right)];

/** Whether a section belongs to a cone in stages: the first of a role, the last, and whatever lies between. */
function within({ sections }: Pipe, role: Section['role']): (index: number) => boolean {
  const first = sections.findIndex((section) => section.role === role);
  const last = sections.findLastIndex((section) => section.role === role);
  return (index) => first >= 0 && first <= index && index <= last;
}

export function withBelly(pipe: Pipe, belly: number): Pipe {
  const before = bellyDiameter(pipe);
  const mouth = stagesOf(pipe.sections, 'diffuser')[0]?.diameter[0] ?? before;
  const tail = tailDiameter(pipe);
  const inDiffuser = within(pipe, 'diffuser');
  const inBaffle = within(pipe, 'baffle');
  return withSections(pipe, (section, k) => {
    const { role, diameter } = section;
    if (inDiffuser(k))
      return { ...section, diameter: both(diameter, (d) => scaled(d, mouth, before, belly)) };
    if (inBaffle(k)) return { ...section, diameter: both(diameter, (d) => scaled(d, tail, before, belly)) };
    if (role === 'belly') return { ...section, diameter: both(diameter, (d) => (d * belly) / before) };
    return section;
  });
}

export function withTail(pipe: Pipe, tail: number): Pipe {
  const before = tailDiameter(pipe);
  const belly = bellyDiameter(pipe);
  const inBaffle = within(pipe, 'baffle');
  return withSections(pipe, (section, k) => {
    const { role, diameter } = section;
    if (inBaffle(k)) return { ...section, diameter: both(diameter, (d) => scaled(d, belly, before, tail)) };
    if (role === 'stinger') return { ...section, diameter: both(diameter, (d) => (d * tail) / before) };
    return section;
  });
}
