/**
 * A pipe taken apart into what is rolled and welded: cut at every joint of two sections and at every mitre, and where a
 * blank would be larger than the sheet. Seams lie on the neutral side of a bend, and no two of them in line. Welds round the
 * pipe are numbered from the flange, W1 the flange's own.
 *
 * Limits, all common practice, no source: a cone steeper than 45 degrees to its axis is spun or pressed, not rolled;
 * sheet is rolled cold to no less than nine times its thickness in diameter (11 % strain outside); between two cuts at
 * least 4 mm are needed to hold and weld.
 */

import type { Pipe } from '../model/pipe.ts';
import type { Section } from '../model/section.ts';
import { advanced, type Frame, flange, type Mitre, mitresOf, turned } from './centreline.ts';
import { type Cut, type MitredCone, slantRange, TURN } from './mitred-cone.ts';
import { WorkshopError } from './workshop-error.ts';

export interface Part {
  /** Counted from the flange, from 1. */
  readonly number: number;
  readonly name: string;
  readonly section: Section;
  /** Where it starts along the centreline, and its length along it [m]. */
  readonly at: number;
  readonly length: number;
  /** Inside diameters where its axis starts and ends [m]. */
  readonly diameter: readonly [start: number, end: number];
  readonly thickness: number;
  /** The middle of its sheet, of which the pattern is. */
  readonly middle: MitredCone;
  /** Where its axis starts, and how it lies. */
  readonly frame: Frame;
  /** Direction of its seam, from up to the right along the flow [rad]. */
  readonly seam: number;
  /** Numbers of the welds at its ends; null is the open end. */
  readonly welds: readonly [start: number, end: number | null];
}

const LEAST_THROAT = 4e-3;
const STEEPEST_DEG = 45;
const LEAST_ROLL = 9;
/** A taper of less than this over a whole section is a cylinder [m]. */
const LEAST_TAPER = 1e-5;

/** Extra square cuts [m along the centreline], where a blank would not fit its sheet. */
export function partsOf(pipe: Pipe, thickness: number, extra: readonly number[] = []): readonly Part[] {
  const mitres = mitresOf(pipe.bends);
  const total = pipe.sections.reduce((sum, { length }) => sum + length, 0);
  const parts: Part[] = [];
  let frame = flange;
  let start = 0;
  for (const section of pipe.sections) {
    refuseUnrollable(section, thickness);
    const end = start + section.length;
    const inside = mitres.filter(({ at }) => at > start - 1e-9 && at < end - 1e-9);
    const squares = extra.filter((at) => at > start + 1e-9 && at < end - 1e-9);
    const stations = [...inside, ...squares.map((at) => ({ at, turn: 0, plane: 0, bend: -1 }))];
    stations.sort((a, b) => a.at - b.at);
    const bounds = [null, ...stations, null];
    for (let piece = 0; piece + 1 < bounds.length; piece += 1) {
      const [before, after] = [bounds[piece] ?? null, bounds[piece + 1] ?? null];
      const [from, to] = [before?.at ?? start, after?.at ?? end];
      if (before !== null && before.turn > 0) frame = turned(frame, before);
      if (to - from < 1e-9) {
        if (after !== null && after.at < start + 1e-9) refuseMitreAtJoint(after);
        continue;
      }
      const last = parts.at(-1);
      parts.push({
        number: parts.length + 1,
        name: bounds.length > 2 ? `${section.name} ${piece + 1} of ${bounds.length - 1}` : section.name,
        section,
        at: from,
        length: to - from,
        diameter: [diameterAt(section, from - start), diameterAt(section, to - start)],
        thickness,
        middle: middleOf(section, thickness, from - start, to - start, cutOf(before), cutOf(after)),
        frame,
        seam: seamOf(before, after, last?.seam ?? null),
        welds: [parts.length + 1, to > total - 1e-9 ? null : parts.length + 2],
      });
      frame = advanced(frame, to - from);
    }
    start = end;
  }
  const atEnd = mitres.find(({ at }) => at > total - 1e-9);
  if (atEnd !== undefined) refuseMitreAtJoint(atEnd);
  parts.forEach((part) => {
    refuseThroat(part);
  });
  return parts;
}

const cutOf = (mitre: Mitre | null): Cut | null =>
  mitre === null || mitre.turn === 0 ? null : { turn: mitre.turn, plane: mitre.plane };

function slopeOf({ diameter: [left, right], length }: Section): number {
  return Math.abs(right - left) < LEAST_TAPER ? 0 : (right - left) / 2 / length;
}

function diameterAt(section: Section, distance: number): number {
  const [left, right] = section.diameter;
  return left + ((right - left) * distance) / section.length;
}

/** The middle of the sheet lies t / (2 cos α) outwards of the inside, square to the axis. */
function middleOf(
  section: Section,
  thickness: number,
  from: number,
  to: number,
  start: Cut | null,
  end: Cut | null,
): MitredCone {
  const slope = slopeOf(section);
  const inside = slope === 0 ? (section.diameter[0] + section.diameter[1]) / 2 : diameterAt(section, from);
  return {
    length: to - from,
    radius: inside / 2 + (thickness / 2) * Math.hypot(1, slope),
    slope,
    start,
    end,
  };
}

/** On the neutral side of the bend, or to the side of a straight piece, and a quarter turn or more from the one before. */
function seamOf(before: Mitre | null, after: Mitre | null, last: number | null): number {
  const mitre = [after, before].find((one) => one !== null && one.turn > 0);
  const plane = mitre?.plane ?? 0;
  const sides = [plane + TURN / 4, plane - TURN / 4].map((phi) => ((phi % TURN) + TURN) % TURN);
  if (last === null) return sides[0]!;
  const apart = (phi: number): number => Math.acos(Math.cos(phi - last));
  return sides.reduce((best, phi) => (apart(phi) > apart(best) + 1e-9 ? phi : best), sides[0]!);
}

const mm = (metres: number, digits = 1): string => String(Number((1000 * metres).toFixed(digits)));

function refuseUnrollable(section: Section, thickness: number): void {
  const halfAngle = (Math.atan(Math.abs(slopeOf(section))) * 180) / Math.PI;
  if (halfAngle > STEEPEST_DEG) {
    throw new WorkshopError(
      `"${section.name}" is too steep to roll from flat sheet: its wall stands ${halfAngle.toFixed(0)} degrees to the axis, ` +
        `${STEEPEST_DEG} is the most here. Lengthen it to ${mm(Math.abs(section.diameter[1] - section.diameter[0]) / 2)} mm or more, or have it spun.`,
    );
  }
  const least = Math.min(...section.diameter);
  if (least < LEAST_ROLL * thickness) {
    throw new WorkshopError(
      `"${section.name}" is ${mm(least)} mm inside: too narrow to roll cold from ${mm(thickness, 2)} mm sheet, ` +
        `which goes to ${LEAST_ROLL} times its thickness. Take thinner sheet (--thickness), or tube.`,
    );
  }
}

function refuseMitreAtJoint({ at, bend }: Mitre): never {
  throw new WorkshopError(
    `Bend ${bend + 1} has a mitre at ${mm(at)} mm, right at an end of a section, where the cut has to be square. ` +
      'Move the bend or the joint by some millimetres.',
  );
}

function refuseThroat(part: Part): void {
  const [least] = slantRange(part.middle);
  if (least >= LEAST_THROAT) return;
  const short = mm(Math.max(LEAST_THROAT - least, 1e-4));
  throw new WorkshopError(
    `"${part.name}", from ${mm(part.at)} to ${mm(part.at + part.length)} mm along the centreline, would have ` +
      `${least > 0 ? `only ${mm(least)} mm` : 'no'} sheet left on the inside of the bend; ${mm(LEAST_THROAT)} mm is the least. ` +
      `Give the bend a larger radius or fewer segments, or move it ${short} mm or more away from the joint of the sections.`,
  );
}

/** What was taken without being stated, or is not drawn. */
export function notesOf(pipe: Pipe): readonly string[] {
  const smooth = pipe.bends.flatMap(({ segments }, index) => (segments === null ? [index + 1] : []));
  const steps = pipe.sections.filter(
    ({ step, diameter }, index) =>
      index > 0 && step && Math.abs(diameter[0] - pipe.sections[index - 1]!.diameter[1]) > 1e-4,
  );
  return [
    ...(smooth.length > 0
      ? [
          `Sheet does not roll to a smooth bend: bend ${smooth.join(', ')} is mitred here, with joints of ten degrees at most. State its segments to choose.`,
        ]
      : []),
    ...steps.map(
      ({ name }) =>
        `At the step into "${name}" a ring closes the gap between the diameters; it is not drawn.`,
    ),
    ...(pipe.silencer === null ? [] : ['The silencer is not unrolled.']),
  ];
}
