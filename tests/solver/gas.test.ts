/**
 * Gas properties against values computed independently from the polynomials of McBride, Zehe & Gordon, NASA
 * TP-2002-211556 (2002). Ring: identity.
 */

import { describe, expect, test } from 'vitest';
import { airFuelRatio, burntMoles, mixtureMass, reactionHeat } from '../../solver/gas/mixture.ts';
import { NASA9, type SpeciesName } from '../../solver/gas/nasa9.ts';
import { molarEnthalpy, molarEntropy, molarHeatCapacity } from '../../solver/gas/species.ts';
import { GasModel } from '../../solver/index.ts';
import { expectPrinted, expectRow } from '../verify/exact/digits.ts';

describe('species', () => {
  // cp at 300, 500, 1000, 1500, 2000 K [J/(mol K)], H(1000 K) - H(298.15 K) [kJ/mol], S(298.15 K) [J/(mol K)].
  test.each([
    ['N2', '29.1252 29.5820 32.6964 34.8419 35.9701 21.462 191.610'],
    ['O2', '29.3875 31.0916 34.8825 36.5528 37.7838 22.707 205.149'],
    ['CO2', '37.2201 44.6245 54.3087 58.3739 60.3346 33.400 213.787'],
    ['H2O', '33.5959 35.2248 41.2910 47.3185 51.7556 26.003 188.829'],
    ['CO', '29.1428 29.7937 33.1788 35.2134 36.2420 21.687 197.660'],
    ['H2', '28.8491 29.2535 30.2063 32.3046 34.2759 20.679 130.681'],
    ['Ar', '20.7863 20.7863 20.7863 20.7863 20.7863 14.589 154.847'],
  ] as const)('%s', (name, row) => {
    const species = NASA9[name];
    expectRow(
      [
        ...[300, 500, 1000, 1500, 2000].map((T) => molarHeatCapacity(species, T)),
        (molarEnthalpy(species, 1000) - molarEnthalpy(species, 298.15)) / 1000,
        molarEntropy(species, 298.15),
      ],
      row,
      name,
    );
  });

  test('heat of formation is the enthalpy at 298.15 K, and the two ranges meet at 1000 K', () => {
    for (const [name, species] of Object.entries(NASA9)) {
      expect(Math.abs(molarEnthalpy(species, 298.15) - species.formationEnthalpy), name).toBeLessThan(2e-3);
      const gap = molarHeatCapacity(species, 1000) - molarHeatCapacity(species, 1000 * (1 - 1e-12));
      expect(Math.abs(gap) / 8.31451, name).toBeLessThan(3e-7);
    }
  });

  // gamma of air as one species.
  test.each([
    [300, '1.3999'],
    [500, '1.3866'],
    [700, '1.3643'],
    [900, '1.3443'],
    [1000, '1.3361'],
    [1200, '1.3234'],
    [1500, '1.3107'],
  ] as const)('air at %s K', (T, printed) => {
    const cp = molarHeatCapacity(NASA9.Air, T);
    expectPrinted(cp / (cp - 8.31451), printed);
  });
});

describe('burnt gas', () => {
  // CH1.85 in air 78.08 N2, 20.95 O2, 0.93 Ar, 0.04 CO2; rich with the water-gas constant 3.5 (Heywood 1988, section 4.9,
  // from memory). Air-fuel ratio, molar mass, R, moles of CO2 CO H2O H2 O2 N2, gamma at 500, 700, 900, 1200, 1500 K.
  test.each([
    [0.9, '16.192 29.0240 286.469', '.12205 0 .11254 0 .01977 .73686', '1.3510 1.3267 1.3061 1.2844 1.2707'],
    [1.0, '14.573 29.0300 286.409', '.13472 0 .12427 0 0 .73228', '1.3476 1.3232 1.3026 1.2809 1.2671'],
    [
      1.1,
      '13.248 28.4799 291.941',
      '.11514 .02928 .12423 .00903 0 .71382',
      '1.3519 1.3279 1.3072 1.2852 1.2712',
    ],
    [
      1.2,
      '12.144 27.9568 297.403',
      '.09848 .05517 .12223 .01956 0 .69627',
      '1.3558 1.3322 1.3115 1.2893 1.2751',
    ],
  ] as const)('of CH1.85 at equivalence ratio %s', (phi, gross, shares, gammas) => {
    const moles = burntMoles(1.85, phi);
    const total = Object.values(moles).reduce((sum, n) => sum + n, 0);
    const gas = GasModel.charge(1.85, phi);
    expectRow([airFuelRatio(1.85, phi), mixtureMass(moles) / total, gas.gasConstant(1)], gross);
    const names: readonly SpeciesName[] = ['CO2', 'CO', 'H2O', 'H2', 'O2', 'N2'];
    expectRow(
      names.map((name) => (moles[name] ?? 0) / total),
      shares.replaceAll(' 0', ' 0.00000'),
    );
    expectRow(
      [500, 700, 900, 1200, 1500].map((T) => gas.gamma(T, 1)),
      gammas,
    );
  });

  test('air-fuel ratio of iso-octane, CH2.25, chemically correct', () => {
    expectPrinted(airFuelRatio(2.25, 1), '15.130');
  });

  test('a rich mixture leaves heat in its CO and H2; a lean one gives all of the heating value', () => {
    const perFuel = (phi: number): number => reactionHeat(1.85, phi, 43e6) * (1 + airFuelRatio(1.85, phi));
    expect(perFuel(0.9)).toBeCloseTo(43e6, -1);
    expect(perFuel(1.2)).toBeLessThan(0.85 * 43e6);
    // Twice as much oxygen missing leaves about twice as much behind.
    expect((43e6 - perFuel(1.2)) / (43e6 - perFuel(1.1))).toBeCloseTo(1.83, 1);
  });
});

describe('the gas model', () => {
  const gas = GasModel.charge(1.85, 1.1);

  // Sound speed of the burnt gas at equivalence ratio 1.1 [m/s].
  test.each([
    [600, '484.44'],
    [700, '520.93'],
    [800, '554.59'],
    [900, '586.06'],
    [1000, '615.76'],
    [1200, '671.01'],
  ] as const)('sound speed at %s K', (T, printed) => {
    expectPrinted(Math.sqrt(gas.gamma(T, 1) * gas.gasConstant(1) * T), printed);
  });

  test('energy is the integral of its heat capacity, temperature its inverse', () => {
    for (const burnt of [0, 0.3, 1]) {
      for (const T of [250, 298.15, 777, 1003, 2600]) {
        const slope = (gas.energy(T + 0.05, burnt) - gas.energy(T - 0.05, burnt)) / 0.1;
        expect(slope / gas.heatCapacity(T, burnt)).toBeCloseTo(1, 6);
        expect(gas.temperature(gas.energy(T, burnt), burnt, 400)).toBeCloseTo(T, 8);
      }
      expect(gas.enthalpy(298.15, burnt)).toBeCloseTo(0, 6);
    }
  });

  test('an energy beyond its table has no temperature', () => {
    expect(gas.temperature(1e8, 0, 400)).toBeNaN();
  });
});
