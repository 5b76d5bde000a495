/**
 * Values of command-line flags. Quantities carry their unit as in case files; a speed may go without, because `--rpm`
 * names it. Each reader returns SI (speeds in rpm) or throws a plain message that says what is allowed.
 */

import { availableParallelism } from 'node:os';
import { UsageError } from './exit-codes.ts';

const lengthUnits: Readonly<Record<string, number>> = { mm: 1e-3, cm: 1e-2, m: 1, in: 0.0254, um: 1e-6 };
const number = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/;

/** A length with its unit, `5mm`, in the units of case files [m]. */
export function lengthFlag(text: string): number {
  const [value, unit] = numberAndUnit(text);
  const scale = lengthUnits[unit];
  if (scale === undefined) {
    if (/^[+-]?\d+,\d/.test(text.trim()))
      throw new UsageError(`"${text}" has a decimal comma; write it with a point, such as 48.5mm.`);
    throw new UsageError(`"${text}" is not a length; write a number with mm, cm, m, in or um, such as 5mm.`);
  }
  // Dividing by 1000 is correctly rounded, multiplying by 0.001 is not: 5mm must be the same number everywhere.
  return scale < 1 && unit !== 'in' ? value / Math.round(1 / scale) : value * scale;
}

/** A length between two limits, both of them allowed [m]. */
export function lengthWithin(least: string, most: string, why = ''): (text: string) => number {
  const [from, to] = [lengthFlag(least), lengthFlag(most)];
  return (text) => {
    const length = lengthFlag(text);
    if (length >= from && length <= to) return length;
    throw new UsageError(`"${text}" must be from ${least} to ${most}${why}.`);
  };
}

/** Width and height of a sheet, `2000x1000mm` [mm]. */
export function sizeFlag(text: string): { readonly width: number; readonly height: number } {
  const found = /^\s*([\d.]+)\s*[x×]\s*([\d.]+)\s*(mm|cm|m|in)\s*$/i.exec(text);
  const [width, height] = [found?.[1], found?.[2]].map((side) =>
    side === undefined ? Number.NaN : 1000 * lengthFlag(`${side}${found?.[3]?.toLowerCase()}`),
  ) as [number, number];
  const sound = [width, height].every((side) => side >= 50 && side <= 10_000);
  if (sound) return { width, height };
  throw new UsageError(
    `"${text}" must be the width and height of a sheet, each from 50mm to 10m, such as 2000x1000mm.`,
  );
}

/** Speeds as `from:to:step`, as a list `8000,9500`, or one [rpm]. */
export function speedsFlag(text: string): readonly number[] {
  const speeds = rangeFlag(text, 'rpm', '6000:12000:250');
  const { least, most, count } = speedLimits;
  const odd = speeds.find((speed) => speed < least || speed > most);
  if (odd !== undefined)
    throw new UsageError(
      `"${text}" holds ${odd} rpm; speeds are from ${least} to ${most} rpm, as in case files.`,
    );
  if (speeds.length > count)
    throw new UsageError(
      `"${text}" has ${speeds.length} speeds; at most ${count} are taken, as in case files.`,
    );
  return speeds;
}

/** What case files take [rpm], and how many of them. */
const speedLimits = { least: 100, most: 40_000, count: 500 } as const;

/** One speed [rpm]. */
export function speedFlag(text: string): number {
  const [speed, ...more] = speedsFlag(text);
  if (speed === undefined || more.length > 0)
    throw new UsageError(`"${text}" must be one speed, such as 11000.`);
  return speed;
}

/** Crank angles as `from:to:step`, as a list, or one [deg]. */
export function anglesFlag(text: string): readonly number[] {
  return rangeFlag(text, 'deg', '184:200:2');
}

/** A band of speeds `from:to` [rpm]. */
export function bandFlag(text: string): { readonly from: number; readonly to: number } {
  const example = '9000:11000';
  const [from, to, ...more] = text.split(':').map((part) => plainNumber(part, 'rpm', text, example));
  if (from === undefined || to === undefined || more.length > 0 || !(to > from)) {
    throw new UsageError(`"${text}" must be from:to, the lower speed first, such as ${example}.`);
  }
  return { from, to };
}

/** Threads for each core beyond which they only wait for one another. */
const THREADS_PER_CORE = 4;

/** A number of threads, at most some for each core. */
export function threadsFlag(text: string): number {
  const count = countFlag(text);
  const most = THREADS_PER_CORE * availableParallelism();
  if (count > most)
    throw new UsageError(
      `"${text}" is more than ${most}, ${THREADS_PER_CORE} for each core of this machine; results do not depend on it.`,
    );
  return count;
}

/** A count of one or more. */
export function countFlag(text: string): number {
  if (!/^\d{1,4}$/.test(text) || Number(text) < 1)
    throw new UsageError(`"${text}" must be a whole number from 1 on.`);
  return Number(text);
}

/** One override `path=value`, as written; the case file's reader works it in. */
export function overrideFlag(text: string): string {
  const at = text.indexOf('=');
  if (at < 1 || at === text.length - 1) {
    throw new UsageError(
      `"${text}" must be a path and a value, such as "pipe.sections.belly.length=120 mm".`,
    );
  }
  return text;
}

const MOST_VALUES = 1000;

function rangeFlag(text: string, unit: string, example: string): readonly number[] {
  const parts = text
    .split(text.includes(':') ? ':' : ',')
    .map((part) => plainNumber(part, unit, text, example));
  if (!text.includes(':')) return [...new Set(parts)].sort((a, b) => a - b);
  const [from, to, step] = parts;
  if (parts.length !== 3 || from === undefined || to === undefined || step === undefined) {
    throw new UsageError(`"${text}" must be from:to:step, such as ${example}.`);
  }
  if (to < from)
    throw new UsageError(`"${text}" runs from ${from} down to ${to}; write the lower end first.`);
  const count = Math.floor((to - from) / step + 1e-9) + 1;
  if (count > MOST_VALUES)
    throw new UsageError(`"${text}" has ${count} values; at most ${MOST_VALUES} are taken.`);
  return Array.from({ length: count }, (_, index) => from + index * step);
}

function plainNumber(part: string, unit: string, text: string, example: string): number {
  const [value, found] = numberAndUnit(part);
  if (!(value > 0) || !Number.isFinite(value) || (found !== '' && found !== unit)) {
    throw new UsageError(
      `"${text}" is not understood; write numbers above zero in ${unit}, such as ${example}.`,
    );
  }
  return value;
}

function numberAndUnit(text: string): readonly [number, string] {
  const trimmed = text.trim();
  const found = number.exec(trimmed)?.[0];
  return found === undefined ? [Number.NaN, ''] : [Number(found), trimmed.slice(found.length).trim()];
}
