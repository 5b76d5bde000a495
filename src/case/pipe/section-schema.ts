/**
 * Stretches of duct joined end to end. A section states its `diameter` (one, or left and right), or only where it tapers
 * `to` from the diameter the section before ends with; `diameter: same` goes on parallel. Where the diameter jumps, the
 * section that begins with the other diameter says `step: true`.
 */

import type { Section } from '../../model/section.ts';
import { bySort, list } from '../keys/branches.ts';
import { choice, flag, quantity, text } from '../keys/leaves.ts';
import { namesDiffer } from '../keys/own-names.ts';
import { optional, record, required, unless } from '../keys/record.ts';
import { checked, type Judge, type Schema } from '../keys/schema.ts';
import { writeQuantity } from '../text/units.ts';

/** Difference in diameter that is still no jump [m]. */
export const SAME_DIAMETER = 1e-4;

/** Left and right diameter [m], or that it goes on as the section before ended. */
type StatedDiameter = readonly [number, number] | 'same';

/** A duct below this is a capillary, in which no wave runs. */
const bore = quantity('length', { atLeast: '1 mm', below: '2 m' });
const same = choice('same');

export const diameter: Schema<StatedDiameter> = bySort<StatedDiameter>({
  scalar: {
    takes: `${bore.takes}, or same`,
    read(node, at) {
      if (node.kind === 'scalar' && node.text === 'same') return same.read(node, at);
      const value = bore.read(node, at);
      return value === undefined ? undefined : [value, value];
    },
    jsonSchema: () => ({ anyOf: [bore.jsonSchema(), same.jsonSchema()] }),
  },
  list: checked(list(bore, 2, 2), ([left, right]) => [left!, right!] as const),
});

/** Keys that every section has. */
export const sectionKeys = {
  name: optional(text(80), 'Name of the section.'),
  length: required(quantity('length', { above: '0 mm', below: '20 m' }), 'Length along the axis.'),
  diameter: optional(diameter, 'Inner diameter, one or [left, right]; "same" goes on parallel.'),
  to: optional(bore, 'Inner diameter at the right end, tapering from where the section before ended.'),
  step: unless(
    flag,
    'The jump in diameter to the section before is meant.',
    'false',
    'sections join without a jump',
  ),
};

export const diameterKeys = { keys: ['diameter', 'to'], needed: true } as const;

export interface StatedSection {
  readonly diameter: StatedDiameter | null;
  readonly to: number | null;
  readonly step: boolean;
}

/**
 * Diameters of sections joined end to end; `where` leads to the list. A jump that is not meant is refused, unless
 * `jumps` says that they need no word.
 */
export function joinedDiameters(
  sections: readonly StatedSection[],
  judge: Judge,
  where: readonly string[],
  jumps: 'stated' | 'free' = 'stated',
): readonly (readonly [number, number])[] | undefined {
  const joined: (readonly [number, number])[] = [];
  let before: readonly [number, number] | null = null;
  let sound = true;
  for (const [index, section] of sections.entries()) {
    const path = [...where, index, section.to === null ? 'diameter' : 'to'];
    const ends: readonly [number, number] | null = endsOf(section, before);
    if (ends === null) {
      judge.refuse(
        path,
        'the first section has none before it to go on from',
        'state its diameter, one or [left, right]',
      );
      return undefined;
    }
    if (before !== null && !section.step && jumps === 'stated' && isJump(before[1], ends[0])) {
      const [from, to] = [
        writeQuantity(before[1], 'length', 'mm', 6),
        writeQuantity(ends[0], 'length', 'mm', 6),
      ];
      judge.refuse(
        path,
        `the diameter jumps from ${from} to ${to} here`,
        `begin with ${from}, or add "step: true" if the jump is meant`,
      );
      sound = false;
    }
    joined.push(ends);
    before = ends;
  }
  return sound ? joined : undefined;
}

export function isJump(left: number, right: number): boolean {
  return Math.abs(left - right) > SAME_DIAMETER;
}

/** Diameters that differ by less than a jump between two sections: the second begins as the first ends. */
export function withoutHairSteps(
  ends: readonly (readonly [number, number])[],
): readonly (readonly [number, number])[] {
  return ends.map(([left, right], index) => {
    const before = ends[index - 1]?.[1];
    return [before === undefined || isJump(before, left) ? left : before, right];
  });
}

function endsOf(
  section: StatedSection,
  before: readonly [number, number] | null,
): readonly [number, number] | null {
  if (section.diameter !== null && section.diameter !== 'same') return section.diameter;
  if (before === null) return null;
  return [before[1], section.to ?? before[1]];
}

/** An intake tract, from its mouth in the open air to the valve. */
export const tract: Schema<readonly Section[]> = checked(
  list(record('a section', sectionKeys, [diameterKeys]), 1, 20),
  (sections, judge) => {
    const ends = joinedDiameters(sections, judge, []);
    if (!namesDiffer(sections, judge, [], 'section')) return undefined;
    return ends?.map<Section>((pair, index) => ({
      name: sections[index]!.name ?? `tract ${index + 1}`,
      role: 'tract',
      length: sections[index]!.length,
      diameter: pair,
      step: sections[index]!.step,
    }));
  },
);
