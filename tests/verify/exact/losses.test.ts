import { describe, expect, it } from 'vitest';
import {
  polynomialConductivity,
  polynomialViscosity,
  sutherlandConductivity,
  sutherlandViscosity,
} from '../../exact/air-transport.ts';
import {
  colburnAnalogy,
  dittusBoelter,
  gnielinski,
  heatTransferCoefficient,
  prandtlNumber,
  pulsatingNusselt,
  reynoldsAnalogy,
  reynoldsNumber,
} from '../../exact/convection.ts';
import { blasius, colebrook, frictionPerMass, haaland } from '../../exact/friction.ts';
import { heatSurplus, STEFAN_BOLTZMANN, wallTemperature } from '../../exact/wall-balance.ts';
import { expectPrinted, expectRow } from './digits.ts';

describe('friction factor (Darcy)', () => {
  // Colebrook (1939), Haaland (1983), Blasius (1913), formulas from memory, recomputed.
  it.each([
    [1e4, 0, '0.030883 0.030886 0.031640'],
    [5e4, 0, '0.020891 0.020713 0.021159'],
    [1e5, 0, '0.017990 0.017825 0.017792'],
    [1e5, 1e-4, '0.018514 0.018265'],
    [1e5, 1e-3, '0.022175 0.021966'],
    [1e5, 5e-3, '0.031306 0.031279'],
    [1e6, 1e-3, '0.019943 0.019941'],
  ] as const)('Re %s, roughness %s', (reynolds, roughness, row) => {
    const values = [colebrook(reynolds, roughness), haaland(reynolds, roughness)];
    expectRow(roughness === 0 ? [...values, blasius(reynolds)] : values, row);
  });

  it('by Colebrook satisfies his equation', () => {
    for (const re of [3e3, 1e5, 1e7]) {
      for (const e of [0, 1e-4, 0.03]) {
        const y = 1 / Math.sqrt(colebrook(re, e));
        expect(y).toBeCloseTo(-2 * Math.log10(e / 3.7 + (2.51 * y) / re), 12);
      }
    }
  });
});

describe('transport in air', () => {
  // White, Viscous Fluid Flow, Sutherland's law, from memory, recomputed: viscosity 1e5 Pa s, conductivity.
  it.each([
    [300, '1.84592 0.02623'],
    [500, '2.67041 0.04018'],
    [700, '3.33185 0.05166'],
    [900, '3.89590 0.06155'],
    [1000, '4.15201 0.06605'],
    [1200, '4.62493 0.07437'],
  ] as const)('at %s K', (t, row) =>
    expectRow([sutherlandViscosity(t) * 1e5, sutherlandConductivity(t)], row),
  );

  it('polynomials (Blair 1996, from memory) lie near Sutherland, 500 to 1200 K: viscosity 1.6 %, conductivity 3.3 %', () => {
    for (const t of [500, 600, 700, 900, 1200]) {
      expect(Math.abs(polynomialViscosity(t) / sutherlandViscosity(t) - 1)).toBeLessThan(0.016);
      expect(Math.abs(polynomialConductivity(t) / sutherlandConductivity(t) - 1)).toBeLessThan(0.033);
    }
  });
});

describe('convection', () => {
  // Worked case: 38 mm, 150 m/s, 1.2 bar, 850 K; viscosity by Sutherland, conductivity by the polynomial (Blair 1996, from memory).
  const flow = {
    diameter: 0.038,
    velocity: 150,
    density: 1.2e5 / (287 * 850),
    viscosity: sutherlandViscosity(850),
    conductivity: polynomialConductivity(850),
    specificHeat: 1150,
  };
  const re = reynoldsNumber(flow);
  const pr = prandtlNumber(flow);
  const f = blasius(re) / 4;

  it('worked case', () => {
    expectRow(
      [flow.viscosity * 1e5, flow.conductivity, flow.density, re, f, pr],
      '3.7620 0.05991 0.49190 74532 0.004787 0.7221',
    );
    expectPrinted(frictionPerMass(f, 0.038, 150), '5669.2');
    expectRow(
      [
        reynoldsAnalogy(flow, f),
        colburnAnalogy(flow, f),
        heatTransferCoefficient(flow, dittusBoelter(re, pr, 'cooled')),
        heatTransferCoefficient(flow, pulsatingNusselt(re)),
      ],
      '203.1 252.3 260.0 497.8',
    );
  });

  it('Dittus-Boelter and Gnielinski at Re 5e4, Pr 0.7', () => {
    expectRow([dittusBoelter(5e4, 0.7, 'heated'), dittusBoelter(5e4, 0.7, 'cooled')], '114.536 118.695');
    // Gnielinski with Petukhov's smooth-pipe factor (0.79 ln Re - 1.64)^-2.
    expectPrinted(gnielinski(5e4, 0.7, (0.79 * Math.log(5e4) - 1.64) ** -2), '104.19');
  });

  it('analogies agree where Pr = 1', () => {
    const unit = { ...flow, conductivity: flow.viscosity * flow.specificHeat };
    expect(colburnAnalogy(unit, f)).toBeCloseTo(reynoldsAnalogy(unit, f), 12);
  });
});

describe('radiating wall', () => {
  const around = {
    gasCoefficient: 250,
    gasTemperature: 900,
    outsideCoefficient: 30,
    outsideTemperature: 300,
    emissivity: 0.8,
  };

  it('worked case', () => {
    // Chosen so that the wall is at 800 K: 30 W/(m2 K) x 500 K + 0.8 sigma (800^4 - 300^4) = 33213.2 W/m2 over 100 K; derived here.
    const out = 30 * 500 + 0.8 * 5.670374419e-8 * (800 ** 4 - 300 ** 4);
    expectPrinted(out, '33213.2');
    expect(wallTemperature({ ...around, gasCoefficient: out / 100 })).toBeCloseTo(800, 9);
  });

  it('balances to round-off over the range of a pipe', () => {
    for (const gasCoefficient of [5, 60, 400]) {
      for (const emissivity of [0, 0.3, 1]) {
        const a = { ...around, gasCoefficient, emissivity };
        const wall = wallTemperature(a);
        expect(Math.abs(heatSurplus(a, wall))).toBeLessThan(1e-9 * gasCoefficient * 900);
        expect(wall).toBeGreaterThan(300);
        expect(wall).toBeLessThan(900);
      }
    }
  });

  it('has its limits: linear without radiation, gas or air temperature without the other side', () => {
    expect(wallTemperature({ ...around, emissivity: 0 })).toBeCloseTo((250 * 900 + 30 * 300) / 280, 10);
    expect(wallTemperature({ ...around, outsideCoefficient: 0, emissivity: 0 })).toBeCloseTo(900, 10);
    expect(wallTemperature({ ...around, gasCoefficient: 0 })).toBeCloseTo(300, 6);
    expect(wallTemperature({ ...around, gasTemperature: 280 })).toBeGreaterThan(280);
  });

  it('radiates by the constant of nature', () => {
    // sigma = 2 pi^5 k^4 / (15 h^3 c^2), CODATA 2018.
    const sigma = (2 * Math.PI ** 5 * 1.380649e-23 ** 4) / (15 * 6.62607015e-34 ** 3 * 299792458 ** 2);
    expect(STEFAN_BOLTZMANN / sigma).toBeCloseTo(1, 8);
  });
});
