/**
 * A quantity with its measuring error: `54 mm ± 0.05 mm`, `54 ± 0.05 mm`, `54 mm ± 1 %`; `+-` and `+/-` are read as ±. The
 * error is the half width of an interval that holds the true value in 95 of 100 cases, as ± states it by custom: two
 * standard deviations (JCGM 100:2008, Guide to the expression of uncertainty in measurement, 6.2 and 7.2.4).
 */

import type { Dimension } from '../../model/dimension.ts';
import { quoted } from './printable.ts';
import { type Parsed, parseQuantity, parseShare } from './quantity-text.ts';
import { toInside } from './units.ts';

const SIGN = /\s*(?:±|\+\/?-)\s*/;
const NUMBER_ALONE = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;
const WITH_UNIT = /^((?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(\S.*)$/;

/** Value and error as written; error null: there is none. */
function parts(text: string): { readonly value: string; readonly error: string | null } {
  const found = SIGN.exec(text);
  if (found === null || found.index === 0) return { value: text, error: null };
  return { value: text.slice(0, found.index), error: text.slice(found.index + found[0].length).trim() };
}

/** The quantity in the unit used inside, and what stands behind ± in the unit written. */
export function parseMeasured(text: string, dimension: Dimension, difference = false): Parsed {
  const { value, error } = parts(text);
  if (error === null || difference) return parseQuantity(text, dimension, difference);
  const unit = WITH_UNIT.exec(error)?.[2];
  if (unit === undefined) return noError(text, `${value} ± 0.1 mm or ${value} ± 1 %`);
  const alone = NUMBER_ALONE.test(value.trim());
  const read = parseQuantity(alone && !isPercent(unit) ? `${value} ${unit}` : value, dimension);
  if (!read.ok) return read;
  const [, number = ''] = WITH_UNIT.exec(error) ?? [];
  const one = toInside('1', read.unit, dimension, true);
  if (isPercent(unit)) {
    if (alone) return noError(text, `${value.trim()} mm ± ${error}`);
    const written = Number(NUMBER_AT_START.exec(value.trim())?.[0]);
    return withError(read, text, (Math.abs(written) * Number(number)) / 100);
  }
  const step = parseQuantity(error, dimension, true);
  return step.ok ? withError(read, text, step.value / one) : step;
}

/** A share likewise: `0.75 ± 0.05`; `75 % ± 5 %` in points of percent; `0.75 ± 5 %` of the value. */
export function parseMeasuredShare(text: string): Parsed {
  const { value, error } = parts(text);
  if (error === null) return parseShare(text);
  const step = parseShare(error);
  if (!step.ok || step.value < 0) return noError(text, `${value.trim()} ± 0.05`);
  const plain = parseShare(value);
  if (!plain.ok) return plain;
  if (plain.unit === '%')
    return step.unit === '%'
      ? withError(plain, text, 100 * step.value)
      : noError(text, `${value.trim()} ± 5 %`);
  return withError(plain, text, step.unit === '%' ? Math.abs(plain.value) * step.value : step.value);
}

const NUMBER_AT_START = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/;

const isPercent = (unit: string): boolean => unit === '%' || unit === 'percent';

function withError(read: Parsed & { readonly ok: true }, text: string, error: number): Parsed {
  if (!(error > 0) || !Number.isFinite(error)) return noError(text, 'a number above 0 behind ±');
  return { ...read, error: Number(error.toPrecision(12)) };
}

function noError(text: string, example: string): Parsed {
  return {
    ok: false,
    message: `${quoted(text)}: what stands behind ± is no measuring error with its unit`,
    hint: `write it like "${example}"`,
  };
}

/** The number in front, in the unit written, of a value that was read. */
export function writtenNumber(value: number, unit: string, dimension: Dimension | null): number {
  if (dimension === null) return unit === '%' ? 100 * value : value;
  const zero = toInside('0', unit, dimension);
  return Number(((value - zero) / toInside('1', unit, dimension, true)).toPrecision(12));
}
