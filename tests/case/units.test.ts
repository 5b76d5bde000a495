/** Ring: identity. Every unit's factor against mathjs, a general-purpose library that reads units on its own. */

import { unit } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { parseQuantity, parseShare } from '../../src/case/text/quantity-text.ts';
import { DIMENSIONS, toInside, unitsOf, writeQuantity } from '../../src/case/text/units.ts';
import type { Dimension } from '../../src/model/dimension.ts';

/** The unit used inside, and those that mathjs writes otherwise. */
const INSIDE: Readonly<Record<Dimension, string>> = {
  length: 'm',
  area: 'm^2',
  volume: 'm^3',
  pressure: 'Pa',
  temperature: 'K',
  angle: 'deg',
  speed: '(360 deg) / (60 s)',
  velocity: 'm/s',
  time: 's',
  density: 'kg/m^3',
  modulus: 'Pa',
  gasConstant: 'J/(kg K)',
  heatingValue: 'J/kg',
  heatTransfer: 'W/(m^2 K)',
  frictionPerSpeed: 'Pa/(m * rad/s)',
  power: 'W',
  torque: 'N m',
};

/** mathjs knows no rpm, reads Hz as 1/s without the turn, and has other names for a few. */
const OTHERWISE: Readonly<Record<string, string>> = {
  mm2: 'mm^2',
  cm2: 'cm^2',
  m2: 'm^2',
  cm3: 'cm^3',
  mm3: 'mm^3',
  m3: 'm^3',
  'kg/m3': 'kg/m^3',
  'g/cm3': 'g/cm^3',
  'W/(m2 K)': 'W/(m^2 K)',
  'N m': 'N m',
  Nm: 'N m',
  cc: 'cm^3',
  l: 'litre',
  'lbf ft': 'lbf ft',
  'Pa/(m rpm)': 'Pa/(m * rad/s)',
  rpm: 'deg/s',
  Hz: 'deg/s',
};
/** Degrees in a turn, for the two units of shaft speed [deg/s]. */
const SPEED: Readonly<Record<string, number>> = { rpm: 360 / 60, Hz: 360 };

const pairs = (Object.keys(DIMENSIONS) as Dimension[]).flatMap((dimension) =>
  unitsOf(dimension).map((name) => [dimension, name] as const),
);

describe('units against mathjs', () => {
  test.each(pairs)('%s in %s', (dimension, name) => {
    const ours = toInside('3.7', name, dimension);
    if (dimension === 'speed') {
      expect(ours).toBeCloseTo(unit(3.7 * SPEED[name]!, 'deg/s').toNumber('deg/s') / 6, 10);
      return;
    }
    if (name === 'PS') {
      // It has no metric horsepower: 75 kgf lifted a metre a second, with the standard fall of 9.80665 m/s2.
      expect(ours / (3.7 * 75 * 9.80665)).toBeCloseTo(1, 14);
      return;
    }
    const theirs = unit(3.7, OTHERWISE[name] ?? name).toNumber(INSIDE[dimension]);
    // mathjs rounds its psi and hp in the eleventh figure; the others agree to round-off.
    expect(Math.abs(ours / theirs - 1)).toBeLessThan(/^(psi|hp)$/.test(name) ? 1e-10 : 1e-14);
  });
});

describe('quantities as written', () => {
  test('the decimal point is shifted in the text, so that the nearest double comes out', () => {
    expect(toInside('0.42', 'mm', 'length')).toBe(0.00042);
    expect(toInside('54.5', 'mm', 'length')).toBe(0.0545);
    expect(toInside('28', 'cc', 'volume')).toBe(28e-6);
    expect(toInside('1.01325', 'bar', 'pressure')).toBe(101325);
    expect(toInside('1.5e2', 'mm', 'length')).toBe(0.15);
  });

  test.each([
    ['450 degC', 'temperature', 723.15],
    ['450 °C', 'temperature', 723.15],
    ['287 J/(kg K)', 'gasConstant', 287],
    ['287 J / ( kg·K )', 'gasConstant', 287],
    ['5 µs', 'time', 5e-6],
    ['1134 mm²', 'area', 1134e-6],
    ['1134 mm^2', 'area', 1134e-6],
    ['11500rpm', 'speed', 11500],
    ['-14 deg', 'angle', -14],
    ['.5 bar', 'pressure', 5e4],
    ['150 Pa/(m rpm)', 'frictionPerSpeed', 150],
  ] as const)('%s', (text, dimension, value) => {
    expect(parseQuantity(text, dimension)).toMatchObject({ ok: true, value });
  });

  test('a difference of temperatures has no zero point', () => {
    expect(parseQuantity('50 degC', 'temperature', true)).toMatchObject({ ok: true, value: 50 });
    expect(parseQuantity('9 degF', 'temperature', true)).toMatchObject({ ok: true, value: 5 });
  });

  test.each([
    ['54 mn', '"54 mn": unknown unit "mn"; a length takes mm, cm, m, in or um', 'did you mean "54 mm"?'],
    ['54 MM', '"54 MM": unknown unit "MM"; a length takes mm, cm, m, in or um', 'did you mean "54 mm"?'],
    ['10 km', '"10 km": unknown unit "km"; a length takes mm, cm, m, in or um', ''],
    ['54', '"54" has no unit; a length takes mm, cm, m, in or um', 'did you mean "54 mm"?'],
    ['54 bar', '"54 bar" is a pressure; a length takes mm, cm, m, in or um', ''],
    ['54,5 mm', '"54,5 mm" has a decimal comma', 'write "54.5 mm" with a point'],
    ['mm', '"mm" is not a number with a unit; a length takes mm, cm, m, in or um', 'write it like "12 mm"'],
    ['2*3 mm', '"2*3 mm": unknown unit "3 mm"; a length takes mm, cm, m, in or um', ''],
    [
      'sqrt(4) mm',
      '"sqrt(4) mm" is not a number with a unit; a length takes mm, cm, m, in or um',
      'write it like "12 mm"',
    ],
    ['1e999 mm', '"1e999 mm" is too large a number', ''],
    [
      '1.2.3 mm',
      '"1.2.3 mm" is not a number with a unit; a length takes mm, cm, m, in or um',
      'write it like "12 mm"',
    ],
    ['5 constructor', '"5 constructor": unknown unit "constructor"; a length takes mm, cm, m, in or um', ''],
  ])('%s is refused', (text, message, hint) => {
    expect(parseQuantity(text, 'length')).toEqual({ ok: false, message, hint });
  });

  test('no guess at a unit that would make the quantity another size', () => {
    expect(parseQuantity('10 krpm', 'speed')).toMatchObject({ ok: false, hint: '' });
    expect(parseQuantity('300 rps', 'speed')).toMatchObject({ ok: false, hint: '' });
    expect(parseQuantity('3 mPa', 'pressure')).toMatchObject({ ok: false, hint: '' });
    expect(parseQuantity('10 RPM', 'speed')).toMatchObject({ hint: 'did you mean "10 rpm"?' });
    expect(parseQuantity('54 ㎜', 'length')).toMatchObject({ ok: true, value: 0.054 });
    expect(parseQuantity('20 ℃', 'temperature')).toMatchObject({ ok: true, value: 293.15 });
  });

  test('a temperature without unit may be in kelvin', () => {
    expect(parseQuantity('300', 'temperature')).toMatchObject({
      hint: 'did you mean "300 degC" or "300 K"?',
    });
  });

  test('shares take a plain number or percent and no unit', () => {
    expect(parseShare('0.6')).toMatchObject({ value: 0.6 });
    expect(parseShare('60 %')).toMatchObject({ value: 0.6 });
    expect(parseShare('60 percent')).toMatchObject({ value: 0.6 });
    expect(parseShare('0.6 mm')).toMatchObject({
      ok: false,
      message: '"0.6 mm" has a unit; this is a plain number, or one in percent',
    });
  });

  test.each(pairs)('%s written in %s reads back', (dimension, name) => {
    const inside = toInside('123.4567', name, dimension);
    const parsed = parseQuantity(writeQuantity(inside, dimension, name), dimension);
    expect(parsed.ok && Math.abs(parsed.value / inside - 1)).toBeLessThan(1e-11);
  });
});
