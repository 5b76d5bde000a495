/**
 * Numbers as spreadsheets write them: `10500.5`, `10500,5`, `10.500,5`, `10 500`. Which sign is the decimal one is told for a
 * whole table at once, for `10.500` alone may be either.
 */

export type DecimalSign = '.' | ',';

/** Blanks that group thousands, among them the narrow ones. */
const BLANKS = /[\s\u00A0\u2009\u202F']/g;

/** The decimal sign of a table's numbers. */
export function decimalSignOf(texts: readonly string[]): DecimalSign {
  let comma = 0;
  let point = 0;
  for (const text of texts) {
    const plain = text.replaceAll(BLANKS, '');
    if (!/^[+-]?[\d.,]+(e[+-]?\d+)?$/i.test(plain)) continue;
    const last = Math.max(plain.lastIndexOf(','), plain.lastIndexOf('.'));
    if (last < 0) continue;
    // A sign that stands several times groups thousands.
    const groups = plain.split(plain[last]!).length > 2;
    if ((plain[last] === ',') !== groups) comma += 1;
    else point += 1;
  }
  return comma > point ? ',' : '.';
}

/** The number, or null where it is none. */
export function writtenNumber(text: string, sign: DecimalSign): number | null {
  const plain = text.replaceAll(BLANKS, '');
  const group = sign === '.' ? ',' : '.';
  const grouped = new RegExp(`^[+-]?\\d{1,3}(\\${group}\\d{3})+(\\${sign}\\d*)?$`);
  const bare = grouped.test(plain) ? plain.replaceAll(group, '') : plain;
  const decimal = bare.replace(sign, '.');
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(decimal)) return null;
  const value = Number(decimal);
  return Number.isFinite(value) ? value : null;
}
