/**
 * The sections of a pipe moved by hand. A joint stands between two sections; it moves along the pipe (lengths) and across it
 * (diameters). A straight header, belly or stinger stays straight: what is done to one of its ends is done to the other, and
 * to the section that begins there. What cannot be is refused in words; what a pipe file may not say is refused by its reader.
 */

import { writeQuantity } from '../case/text/units.ts';
import type { Section } from '../model/section.ts';

export type Edit =
  | { readonly ok: true; readonly sections: readonly Section[] }
  | { readonly ok: false; readonly words: string };

/** Shortest section that is rolled and welded [m]; common practice, no source. */
const SHORTEST = 5e-3;
/** Narrowest and widest bore that a joint is dragged to [m]. */
const NARROWEST = 8e-3;
const WIDEST = 0.3;
/** Length of a section that is added [m]. */
const ADDED = 30e-3;

const STRAIGHT = new Set<Section['role']>(['header', 'belly', 'stinger']);

const mm = (metres: number): string => writeQuantity(metres, 'length', 'mm', 6);
const refused = (words: string): Edit => ({ ok: false, words });
const isStraight = ({ role, diameter: [left, right] }: Section): boolean =>
  left === right && STRAIGHT.has(role);

/** A length rounded to a hundredth of a millimetre [m], so that files stay readable. */
const rounded = (metres: number): number => Math.round(metres * 1e5) / 1e5;

/** A section made so long [m]. */
export function withLength(sections: readonly Section[], index: number, length: number): Edit {
  const one = sections[index];
  if (one === undefined) return refused('there is no such section');
  const made = rounded(length);
  if (!(made >= SHORTEST))
    return refused(
      `${one.name} would be ${mm(made)} long: a joint cannot pass its neighbour, ${mm(SHORTEST)} have to stay between`,
    );
  return { ok: true, sections: sections.map((s, k) => (k === index ? { ...s, length: made } : s)) };
}

/**
 * A joint moved along by a distance [m]. `joint` counts from 0, the flange, which stays; with `carry` all behind it moves with
 * it, else only the joint does.
 */
export function movedAlong(sections: readonly Section[], joint: number, by: number, carry: boolean): Edit {
  const before = sections[joint - 1];
  const behind = sections[joint];
  if (before === undefined) return refused('the flange stays where it is: the passage is the engine’s');
  const longer = withLength(sections, joint - 1, before.length + by);
  if (!longer.ok || carry || behind === undefined) return longer;
  return withLength(longer.sections, joint, behind.length - (rounded(before.length + by) - before.length));
}

/** A joint given a diameter [m]; straight sections on either side stay straight. */
export function movedAcross(sections: readonly Section[], joint: number, diameter: number): Edit {
  const made = rounded(diameter);
  if (!(made >= NARROWEST && made <= WIDEST))
    return refused(`a diameter of ${mm(made)}: the board takes ${mm(NARROWEST)} to ${mm(WIDEST)}`);
  const ends = sections.map(({ diameter: [left, right] }) => [left, right] as [number, number]);
  const spread = (at: number, way: -1 | 1): void => {
    const index = way < 0 ? at - 1 : at;
    const [section, pair] = [sections[index], ends[index]];
    if (section === undefined || pair === undefined) return;
    pair[way < 0 ? 1 : 0] = made;
    if (!isStraight(section)) return;
    pair[way < 0 ? 0 : 1] = made;
    const next = at + way;
    // A jump that is meant lets the other side be.
    const jumps = sections[way < 0 ? index : next]?.step === true;
    if (!jumps) spread(next, way);
  };
  spread(joint, -1);
  spread(joint, 1);
  return {
    ok: true,
    sections: sections.map((section, k) => ({ ...section, diameter: ends[k] ?? section.diameter })),
  };
}

/** A section cut in two at its middle. */
export function split(sections: readonly Section[], index: number): Edit {
  const one = sections[index];
  if (one === undefined) return refused('there is no such section');
  return one.length < 2 * SHORTEST
    ? refused(`${one.name} is too short to be cut in two`)
    : { ok: true, sections: parted(sections, one, one.length / 2, one.length / 2) };
}

/** A section added behind another: a straight one goes on straight, a cone goes on at its angle to the same diameter. */
export function added(sections: readonly Section[], index: number): Edit {
  const one = sections[index];
  return one === undefined
    ? refused('there is no such section')
    : { ok: true, sections: parted(sections, one, one.length, ADDED) };
}

function parted(all: readonly Section[], one: Section, first: number, second: number): readonly Section[] {
  const [left, right] = one.diameter;
  const middle = rounded(left + ((right - left) * first) / (first + second));
  const names = new Set(all.map(({ name }) => name));
  const fresh = (ending: string): string => {
    let name = `${one.name}${ending}`;
    for (let again = 2; names.has(name); again++) name = `${one.name}${ending}${again}`;
    names.add(name);
    return name;
  };
  const [a, b] = [fresh(' a'), fresh(' b')];
  return all.flatMap((section) =>
    section === one
      ? [
          { ...one, name: a, length: rounded(first), diameter: [left, middle] as const },
          { ...one, name: b, length: rounded(second), diameter: [middle, right] as const, step: false },
        ]
      : [section],
  );
}

/** A section taken out; the cone on one side is led to the other side's diameter. */
export function removed(sections: readonly Section[], index: number): Edit {
  const [before, one, behind] = [sections[index - 1], sections[index], sections[index + 1]];
  if (one === undefined) return refused('there is no such section');
  if (sections.length === 1) return refused('the last section cannot be taken out: there would be no pipe');
  const rest = sections.filter((section) => section !== one);
  if (behind === undefined || behind.step) return { ok: true, sections: rest };
  const from = before === undefined ? one.diameter[0] : before.diameter[1];
  const to = behind.diameter[0];
  if (from === to) return { ok: true, sections: rest };
  if (!isStraight(behind)) return { ok: true, sections: replaced(rest, behind, [from, behind.diameter[1]]) };
  if (before !== undefined && !isStraight(before))
    return { ok: true, sections: replaced(rest, before, [before.diameter[0], to]) };
  return refused(`without ${one.name} the diameter would jump from ${mm(from)} to ${mm(to)}`);
}

const replaced = (
  sections: readonly Section[],
  old: Section,
  diameter: readonly [number, number],
): readonly Section[] => sections.map((section) => (section === old ? { ...section, diameter } : section));

/** The sections as the value of `pipe.sections`, each by where it goes on to, as a pipe file is written. */
export function sectionsText(sections: readonly Section[]): string {
  const exact = (metres: number): string => writeQuantity(metres, 'length', 'mm');
  const items = sections.map(({ name, role, length, diameter: [left, right], step }, k) => {
    const joined = sections[k - 1]?.diameter[1] === left;
    const goesOn = left === right ? 'diameter: same' : `to: ${exact(right)}`;
    return [
      `name: ${JSON.stringify(name)}`,
      ...(name.toLowerCase().split(/[^a-z]/)[0] === role ? [] : [`role: ${role}`]),
      `length: ${exact(length)}`,
      joined ? goesOn : `diameter: [${exact(left)}, ${exact(right)}]`,
      ...(step ? ['step: true'] : []),
    ].join(', ');
  });
  return `[${items.map((keys) => `{ ${keys} }`).join(', ')}]`;
}
