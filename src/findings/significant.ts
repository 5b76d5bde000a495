/**
 * A number to some significant digits, as `toPrecision` has it, without a text on the way: a sweep rounds a million of them. Whole
 * multiples of powers of ten up to 10^22 are exact, so the quotient is the nearest double to the decimal.
 */

const MOST_EXACT = 22;

/** The number to so many digits; halves that are not exact go either way, and what is beyond the scale is left as it is. */
export function significant(value: number, digits: number): number {
  if (value === 0 || !Number.isFinite(value)) return value;
  const places = digits - 1 - Math.floor(Math.log10(Math.abs(value)));
  if (Math.abs(places) > MOST_EXACT) return Number(value.toPrecision(digits));
  const scale = 10 ** Math.abs(places);
  return places >= 0 ? Math.round(value * scale) / scale : Math.round(value / scale) * scale;
}
