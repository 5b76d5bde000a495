import { describe, expect, it } from 'vitest';
import { isoCorrection, saeCorrection, standardAtmosphere } from '../../exact/atmosphere.ts';
import { expectPrinted, expectRow } from './digits.ts';

describe('standard atmosphere (ISO 2533, exponent from memory)', () => {
  it('at sea level', () => {
    const air = standardAtmosphere(0);
    expectRow([air.soundSpeed, air.density], '340.294 1.22500');
  });

  it.each([
    [1000, '281.65 89874.56 1.11164'],
    [2000, '275.15 79495.20 1.00649'],
  ] as const)('at %s m', (height, row) => {
    const air = standardAtmosphere(height);
    expectRow([air.temperature, air.pressure, air.density], row);
  });

  it('stands in hydrostatic balance', () => {
    const dz = 1;
    const slope =
      (standardAtmosphere(1500 + dz).pressure - standardAtmosphere(1500 - dz).pressure) / (2 * dz);
    expect(slope / (-9.80665 * standardAtmosphere(1500).density)).toBeCloseTo(1, 5);
  });
});

describe('power correction (SAE J1349; ISO 1585, exponents from memory)', () => {
  it.each([
    [970, 30, '1.03439 1.03508'],
    [1013, 15, '0.95369 0.95310'],
  ] as const)('%s mbar, %s deg C', (pressure, celsius, row) => {
    expectRow(
      [saeCorrection(pressure * 100, celsius + 273.15), isoCorrection(pressure * 100, celsius + 273)],
      row,
    );
  });

  it('is 1 at its own standard', () => {
    expectPrinted(saeCorrection(99000, 298.15), '1.000000000');
    expectPrinted(isoCorrection(99000, 298), '1.000000000');
  });
});
