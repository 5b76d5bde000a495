/**
 * The quantities that aiming may move, each with its range: by default the length of every section, the belly's diameter
 * and the bore of the stinger. Ranges are taken about the pipe that the search starts from, wide enough to reach any
 * sensible pipe; the stinger's bore stays where a pipe does not run hot.
 */

import type { Pipe } from '../../model/pipe.ts';
import { flangeDiameter, stagesOf } from '../../pipe/places.ts';
import { bellyDiameter, tailDiameter, withBelly, withEnd, withLength, withTail } from '../../pipe/shape.ts';

export interface AimQuantity {
  /** `header length` */
  readonly name: string;
  readonly low: number;
  readonly high: number;
  /** What it means to rest on the low or the high end. */
  readonly lowText: string;
  readonly highText: string;
  readonly read: (pipe: Pipe) => number;
  readonly write: (pipe: Pipe, value: number) => Pipe;
}

/** A length moves down to this share of the start's, and up by this factor or this much, whichever is more. */
const LENGTH = { share: 0.4, factor: 1.7, more: 0.08, least: 0.01 } as const;
/** Belly over the flange's diameter: 2.25 in broad pipes to 3.25 in racing ones (Blair 1996), and a little beyond. */
const BELLY = { low: 1.9, high: 3.4 } as const;
/** Stinger over the flange's diameter: 0.57 to 0.62 (Blair 1996); narrower can burn a piston. */
const TAIL = { low: 0.56, high: 0.7 } as const;

/** Quantities of a pipe; `asked` are paths such as `header.length`, `belly.diameter`; none: the default ones. */
export function aimQuantities(start: Pipe, asked: readonly string[]): readonly AimQuantity[] {
  if (asked.length > 0) return asked.map((path) => quantityAt(start, path));
  return [
    ...start.sections.map((_, index) => lengthOf(start, index)),
    bellyOf(start),
    ...(stagesOf(start.sections, 'stinger').length > 0 ? [tailOf(start)] : []),
  ];
}

/** A path that names no quantity of the pipe. */
export class UnknownQuantity extends Error {
  override readonly name = 'UnknownQuantity';
  readonly exitCode = 2;
}

function quantityAt(start: Pipe, path: string): AimQuantity {
  const plain = path.trim().replace(/^pipe\.sections\./, '');
  const dot = plain.lastIndexOf('.');
  const [name, what] = [plain.slice(0, dot), plain.slice(dot + 1)];
  const index = sectionAt(start, name);
  const section = index === null ? undefined : start.sections[index];
  if (index !== null && section !== undefined) {
    if (what === 'length') return lengthOf(start, index);
    if (what === 'diameter' && section.role === 'belly') return bellyOf(start);
    if (what === 'diameter' && section.role === 'stinger') return tailOf(start);
    if (what === 'to' && ['header', 'diffuser'].includes(section.role)) return endOf(start, index);
  }
  const names = start.sections.map((one) => one.name).join(', ');
  throw new UnknownQuantity(
    `"${path}" is no quantity that can be moved. Write <section>.length, <section>.to for header and diffusers, ` +
      `belly.diameter or stinger.diameter; the sections are ${names}.`,
  );
}

function sectionAt({ sections }: Pipe, name: string): number | null {
  if (/^\d+$/.test(name)) return Number(name) < sections.length ? Number(name) : null;
  const named = sections.flatMap((one, index) => (one.name === name ? [index] : []));
  const roled = sections.flatMap((one, index) => (one.role === name ? [index] : []));
  const fitting = named.length > 0 ? named : roled;
  return fitting.length === 1 ? fitting[0]! : null;
}

const lengthRange = (length: number): Pick<AimQuantity, 'low' | 'high' | 'lowText' | 'highText'> => ({
  low: Math.min(length, Math.max(LENGTH.least, LENGTH.share * length)),
  high: Math.max(LENGTH.factor * length, length + LENGTH.more),
  lowText: 'the shortest searched',
  highText: 'the longest searched',
});

function lengthOf(start: Pipe, index: number): AimQuantity {
  const { name, length } = start.sections[index]!;
  return {
    name: `${name} length`,
    ...lengthRange(length),
    read: (pipe) => pipe.sections[index]?.length ?? 0,
    write: (pipe, value) => withLength(pipe, index, value),
  };
}

/** The length of all stages of a role, which keep their proportions; null where the pipe has none. */
export function roleLength(start: Pipe, role: 'header' | 'baffle'): AimQuantity | null {
  const stages = start.sections.flatMap((section, index) => (section.role === role ? [index] : []));
  const only = stages.length === 1 ? stages[0] : undefined;
  if (only !== undefined) return lengthOf(start, only);
  const read = ({ sections }: Pipe): number =>
    stages.reduce((sum, index) => sum + (sections[index]?.length ?? 0), 0);
  if (!(read(start) > 0)) return null;
  return {
    name: `${role} length`,
    ...lengthRange(read(start)),
    read,
    write: (pipe, value) => {
      const ratio = value / read(pipe);
      return stages.reduce(
        (longer, index) => withLength(longer, index, ratio * (pipe.sections[index]?.length ?? 0)),
        pipe,
      );
    },
  };
}

function bellyOf(start: Pipe): AimQuantity {
  const flange = flangeDiameter(start);
  const belly = bellyDiameter(start);
  return {
    name: 'belly diameter',
    low: Math.min(belly, BELLY.low * flange),
    high: Math.max(belly, BELLY.high * flange),
    lowText: 'the smallest searched',
    highText: 'the largest searched',
    read: bellyDiameter,
    write: withBelly,
  };
}

function tailOf(start: Pipe): AimQuantity {
  const flange = flangeDiameter(start);
  const tail = tailDiameter(start);
  return {
    name: 'stinger diameter',
    low: Math.min(tail, TAIL.low * flange),
    high: Math.max(tail, TAIL.high * flange),
    lowText: 'the narrowest searched: narrower runs hot',
    highText: 'the widest searched',
    read: tailDiameter,
    write: withTail,
  };
}

function endOf(start: Pipe, index: number): AimQuantity {
  const section = start.sections[index]!;
  const next = start.sections[index + 1];
  const [left, right] = section.diameter;
  return {
    name: `${section.name} end diameter`,
    low: left * 1.005,
    high: Math.max(right, (next?.diameter[1] ?? right) * 0.995),
    lowText: 'as narrow as its mouth',
    highText: 'as wide as the next section',
    read: (pipe) => pipe.sections[index]?.diameter[1] ?? 0,
    write: (pipe, value) => withEnd(pipe, index, value),
  };
}

/** A pipe with all quantities at the shares of their ranges. */
export function pipeAt(start: Pipe, quantities: readonly AimQuantity[], point: readonly number[]): Pipe {
  return quantities.reduce(
    (pipe, { low, high, write }, k) => write(pipe, low + point[k]! * (high - low)),
    start,
  );
}

/** The shares of the quantities' ranges at which a pipe lies. */
export function pointOf(pipe: Pipe, quantities: readonly AimQuantity[]): readonly number[] {
  return quantities.map(({ low, high, read }) => Math.min(1, Math.max(0, (read(pipe) - low) / (high - low))));
}
