/** Ring: identity. Corrections of power: nothing at the reference, and numbers worked by hand from the formulas. */

import { expect, test } from 'vitest';
import { correctionFactor, dryPressure, saturation } from '../../src/case/measured/power-correction.ts';

const dry = { humidity: 0 };

test('change nothing in the reference air of 990 mbar, dry, and 25 degC', () => {
  const reference = { pressure: 99e3, temperature: 298, ...dry };
  expect(correctionFactor('ISO 1585', reference)).toBeCloseTo(1, 14);
  expect(correctionFactor('SAE J1349', reference)).toBeCloseTo(1, 14);
  expect(correctionFactor('none', { ...reference, pressure: 80e3 })).toBe(1);
});

test('raise readings in thin and warm air by what the formulas give on paper', () => {
  // (99/97)^1.2 = exp(1.2 · 0.0204089) = 1.024793; (303/298)^0.6 = exp(0.6 · 0.0166393) = 1.010034.
  const warm = { pressure: 97e3, temperature: 303, ...dry };
  expect(correctionFactor('ISO 1585', warm)).toBeCloseTo(1.024793 * 1.010034, 5);
  // 1.18 · 1.0206186 · 1.0083542 − 0.18
  expect(correctionFactor('SAE J1349', warm)).toBeCloseTo(1.0343909, 5);
  expect(correctionFactor('ISO 1585', { pressure: 103e3, temperature: 283, ...dry })).toBeLessThan(1);
});

test('take the vapour of the air off its pressure: at 20 degC saturated air holds 2.339 kPa of it (steam tables)', () => {
  expect(Math.abs(saturation(293.15) / 2339 - 1)).toBeLessThan(0.004);
  expect(Math.abs(saturation(303.15) / 4247 - 1)).toBeLessThan(0.004);
  const air = { pressure: 100e3, temperature: 293.15, humidity: 0.5 };
  expect(dryPressure(air)).toBeCloseTo(100e3 - 0.5 * saturation(293.15), 9);
  expect(correctionFactor('ISO 1585', air)).toBeGreaterThan(
    correctionFactor('ISO 1585', { ...air, humidity: 0 }),
  );
});
