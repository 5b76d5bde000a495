/**
 * A number and its unit out of a text such as `54 mm`, `287 J/(kg K)`, `-14 deg`. Other ways to write the same unit
 * (`°C`, `µs`, `m²`, `m^2`, `㎜`, `·`) are brought to the table's. The number is plain decimal; nothing is evaluated.
 */

import type { Dimension } from '../../model/dimension.ts';
import { nearest } from './nearest.ts';
import { quoted } from './printable.ts';
import { DIMENSIONS, dimensionOf, takes, toInside, unitsOf } from './units.ts';

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?(?![\d.])/;

/** Number and unit of a quantity as the program writes it, the unit empty where there is none; null: it is no quantity. */
export function numberAndUnit(written: string): { readonly number: number; readonly unit: string } | null {
  const found = /^([+-]?[\d.]+(?:e[+-]?\d+)?)\s*(.*)$/i.exec(written.trim());
  const number = Number(found?.[1]);
  return found === null || !Number.isFinite(number) ? null : { number, unit: found[2] ?? '' };
}

/** Read, or refused with the reason and what to do. */
export type Parsed =
  | {
      readonly ok: true;
      readonly value: number;
      readonly unit: string;
      /** What stands behind ±, in the unit that the value is written in. */
      readonly error?: number;
    }
  | { readonly ok: false; readonly message: string; readonly hint: string };

const refuse = (message: string, hint = ''): Parsed => ({ ok: false, message, hint });

/** The quantity in the unit used inside; see `toInside` for `difference`. */
export function parseQuantity(text: string, dimension: Dimension, difference = false): Parsed {
  const trimmed = text.trim();
  const number = NUMBER.exec(trimmed)?.[0];
  const usual = unitsOf(dimension)[0]!;
  if (number === undefined) {
    return refuse(
      `${quoted(text)} is not a number with a unit; ${takes(dimension)}`,
      `write it like "12 ${usual}"`,
    );
  }
  const rest = trimmed.slice(number.length);
  if (/^,\d/.test(rest)) {
    return refuse(
      `${quoted(text)} has a decimal comma`,
      `write ${quoted(trimmed.replace(',', '.'))} with a point`,
    );
  }
  const name = plainUnit(rest);
  const value = Number(number);
  if (!Number.isFinite(value)) return refuse(`${quoted(text)} is too large a number`);
  if (name === '') {
    // A temperature is as often meant in kelvin: 300 may well be 300 K.
    const other = dimension === 'temperature' ? ` or "${number} K"` : '';
    return refuse(
      `${quoted(text)} has no unit; ${takes(dimension)}`,
      `did you mean "${number} ${usual}"${other}?`,
    );
  }
  const allowed = unitsOf(dimension);
  if (allowed.includes(name)) {
    return { ok: true, value: toInside(number, name, dimension, difference), unit: name };
  }
  const other = dimensionOf(name);
  if (other !== null) {
    return refuse(`${quoted(text)} is ${DIMENSIONS[other].called}; ${takes(dimension)}`);
  }
  const near = nearestUnit(name, allowed);
  const hint = near === null ? '' : `did you mean "${number} ${near}"?`;
  return refuse(`${quoted(text)}: unknown unit ${quoted(name)}; ${takes(dimension)}`, hint);
}

/** A bare number or one in percent, as a share of one. */
export function parseShare(text: string): Parsed {
  const trimmed = text.trim();
  const number = NUMBER.exec(trimmed)?.[0];
  if (number === undefined) return refuse(`${quoted(text)} is not a number`);
  const rest = trimmed.slice(number.length).trim();
  if (/^,\d/.test(rest)) {
    return refuse(
      `${quoted(text)} has a decimal comma`,
      `write ${quoted(trimmed.replace(',', '.'))} with a point`,
    );
  }
  const value = Number(number);
  if (!Number.isFinite(value)) return refuse(`${quoted(text)} is too large a number`);
  if (rest === '') return { ok: true, value, unit: '' };
  if (rest === '%' || rest === 'percent') return { ok: true, value: value / 100, unit: '%' };
  return refuse(`${quoted(text)} has a unit; this is a plain number, or one in percent`);
}

/** Prefixes of the International System before units that stand in the tables without them. */
const PREFIX = /^(?:da|[GMkhdcmunp])(?=.)/;

/** Units of other tables that are one letter away from one of ours, and another size. */
const OTHER_UNITS: ReadonlySet<string> = new Set(['rps', 'mi', 'min']);

/**
 * A misspelt unit is one or two letters: the same letters in another case come first, then one edit. What is a right
 * unit elsewhere (krpm, mPa) is none: the nearest of ours would be the same number of another size.
 */
function nearestUnit(name: string, allowed: readonly string[]): string | null {
  if (allowed.includes(name.replace(PREFIX, '')) || OTHER_UNITS.has(name) || /^[\d.]/.test(name)) return null;
  return allowed.find((unit) => unit.toLowerCase() === name.toLowerCase()) ?? nearest(name, allowed);
}

function plainUnit(text: string): string {
  // Most units are letters and nothing else.
  const plain = text.trim();
  if (/^[A-Za-z]*$/.test(plain)) return plain;
  return text
    .normalize('NFKC')
    .replaceAll('^', '')
    .replaceAll(/[µμ]/g, 'u')
    .replaceAll('°', 'deg')
    .replaceAll(/[·*]/g, ' ')
    .replaceAll(/\s*\/\s*/g, '/')
    .replaceAll(/\(\s+/g, '(')
    .replaceAll(/\s+\)/g, ')')
    .replaceAll(/\s+/g, ' ')
    .trim();
}

/** Ways to write a shaft speed in a heading that no quantity of a case file has. */
const SHAFT_SPEEDS = /^(1\/min|min-1|min\^-1|r\/min|rev\/min|u\/min|rpm)$/i;

/** A unit as a heading of a table writes it, in the spelling of our tables; null: the dimension has none such. */
export function knownUnit(written: string, dimension: Dimension): string | null {
  const name = plainUnit(written);
  const allowed = unitsOf(dimension);
  if (allowed.includes(name)) return name;
  if (dimension === 'speed' && SHAFT_SPEEDS.test(name)) return 'rpm';
  // Headings do not mind capitals; where that leaves two units, it is neither.
  const near = allowed.filter((unit) => unit.toLowerCase() === name.toLowerCase());
  return near.length === 1 ? near[0]! : null;
}
