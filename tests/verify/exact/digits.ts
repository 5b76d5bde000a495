import { expect } from 'vitest';

/** Half a unit in the last place of a printed number, with a hair for its own rounding. */
function halfUnit(printed: string): number {
  const [mantissa = '', exponent = '0'] = printed.replace('−', '-').split('e');
  const decimals = mantissa.includes('.') ? mantissa.length - mantissa.indexOf('.') - 1 : 0;
  return 0.5001 * 10 ** (Number(exponent) - decimals);
}

/** Holds a computed value against a printed one, to the last digit printed. */
export function expectPrinted(value: number, printed: string, what = ''): void {
  const target = Number(printed.replace('−', '-'));
  const miss = Math.abs(value - target);
  expect(miss, `${what} computed ${value}, printed ${printed}`).toBeLessThanOrEqual(halfUnit(printed));
}

/** Holds a row of computed values against a printed row. */
export function expectRow(values: readonly number[], printed: string, what = ''): void {
  const cells = printed.trim().split(/\s+/);
  expect(values.length, `columns of ${what}`).toBe(cells.length);
  cells.forEach((cell, i) => {
    expectPrinted(values[i] ?? Number.NaN, cell, `${what} column ${i + 1}:`);
  });
}
