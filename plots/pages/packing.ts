/**
 * Numbers in a page, packed: each series is spread over the whole range of 8 or 16 bits between its ends and written
 * in base 64. 16 bits keep a trace to 1/65 535 of its span, 8 bits a field to 1/255, below what a shade can show.
 */

export interface Packed {
  readonly low: number;
  readonly high: number;
  readonly bits: 8 | 16;
  readonly text: string;
}

function span(values: ArrayLike<number>): { low: number; high: number } {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? Number.NaN;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return low <= high ? { low, high } : { low: 0, high: 0 };
}

export function pack(values: ArrayLike<number>, bits: 8 | 16, range = span(values)): Packed {
  const { low, high } = range;
  const top = bits === 8 ? 255 : 65535;
  const factor = high > low ? top / (high - low) : 0;
  let binary = '';
  for (let i = 0; i < values.length; i++) {
    const code = Math.min(top, Math.max(0, Math.round(((values[i] ?? low) - low) * factor))) || 0;
    binary += bits === 8 ? String.fromCharCode(code) : String.fromCharCode(code & 255, code >> 8);
  }
  return { low, high, bits, text: btoa(binary) };
}

export function unpack(packed: Packed): Float64Array {
  const binary = atob(packed.text);
  const wide = packed.bits === 16;
  const step = (packed.high - packed.low) / (wide ? 65535 : 255);
  const values = new Float64Array(wide ? binary.length / 2 : binary.length);
  for (let i = 0; i < values.length; i++) {
    const code = wide ? binary.charCodeAt(2 * i) + 256 * binary.charCodeAt(2 * i + 1) : binary.charCodeAt(i);
    values[i] = packed.low + step * code;
  }
  return values;
}

/** Evenly spaced values from one end to the other, both included. */
export const evenly = (from: number, to: number, count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, i) => from + ((to - from) * i) / Math.max(1, count - 1));

/** Where a point stands in a series of places. */
export interface Foot {
  /** Of the place to its left. */
  readonly cell: number;
  /** Of the way to the next place, 0 to 1. */
  readonly share: number;
}

/** Places of new points among old ascending ones: the cell to the left, and the share of the way through it. */
export function feet(old: ArrayLike<number>, fresh: ArrayLike<number>): Foot[] {
  let cell = 0;
  return Array.from(fresh, (at) => {
    while (cell < old.length - 2 && (old[cell + 1] ?? 0) < at) cell++;
    const left = old[cell] ?? 0;
    const width = (old[cell + 1] ?? left) - left;
    return { cell, share: width > 0 ? Math.min(1, Math.max(0, (at - left) / width)) : 0 };
  });
}

/** Linear interpolation of a series at new places, both ascending. */
export function resample(
  at: ArrayLike<number>,
  values: ArrayLike<number>,
  fresh: ArrayLike<number>,
): Float64Array {
  return Float64Array.from(feet(at, fresh), ({ cell, share }) => {
    const left = values[cell] ?? 0;
    return left + share * ((values[cell + 1] ?? left) - left);
  });
}
