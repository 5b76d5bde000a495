import { describe, expect, it } from 'vitest';
import {
  blowDownPressure,
  chokedPressureRatio,
  chokedTime,
  subsonicTailTime,
  vesselTemperatureRatio,
} from '../../../src/verify/exact/blow-down.ts';
import {
  chokedFlowFunction,
  criticalDensityRatio,
  criticalMassFlux,
  criticalPressureRatio,
  criticalTemperatureRatio,
  massFlux,
} from '../../exact/choking.ts';
import { expectPrinted, expectRow } from './digits.ts';

describe('choking', () => {
  // Shapiro vol. I, ch. 4, from memory, recomputed: p_star/p0, p0/p_star, T_star/T0, rho_star/rho0, flow function.
  it.each([
    [1.4, '0.528282 1.892929 0.833333 0.633938 0.684731'],
    [1.33, '0.540364 1.850604 0.858369 0.629524 0.672628'],
    [1.3, '0.545728 1.832416 0.869565 0.627587 0.667262'],
    [1.25, '0.554929 1.802032 0.888889 0.624295 0.658065'],
  ] as const)('gamma %s', (gamma, row) => {
    const p = criticalPressureRatio(gamma);
    expectRow(
      [p, 1 / p, criticalTemperatureRatio(gamma), criticalDensityRatio(gamma), chokedFlowFunction(gamma)],
      row,
    );
  });

  it('passes the mass flow of the worked cases through 500 mm2', () => {
    const air = { gamma: 1.4, gasConstant: 287.05, pressure: 101325, temperature: 288.15 };
    const warm = { gamma: 1.33, gasConstant: 289, pressure: 4e5, temperature: 1200 };
    const hot = { gamma: 1.25, gasConstant: 290, pressure: 6e5, temperature: 1400 };
    const area = 500e-6;
    expectRow(
      [criticalMassFlux(air), criticalMassFlux(air) * area, massFlux(air, 0.8) * area],
      '241.2397 0.120620 0.098764',
    );
    expectRow([criticalMassFlux(warm) * area, massFlux(warm, 0.8) * area], '0.228437 0.189212');
    expectPrinted(criticalMassFlux(hot) * area, '0.309832');
    expect(massFlux(air, criticalPressureRatio(1.4) + 1e-9)).toBeCloseTo(criticalMassFlux(air), 6);
    expect(massFlux(air, 1)).toBe(0);
  });
});

describe('vessel blowing down', () => {
  const cold = {
    gas: { gamma: 1.4, gasConstant: 287, temperature: 300, pressure: 1e6 },
    volume: 1e-3,
    effectiveArea: 1e-4,
  };
  const hot = {
    gas: { gamma: 1.33, gasConstant: 289, temperature: 1400, pressure: 6e5 },
    volume: 1e-4,
    effectiveArea: 4e-4,
  };

  it('halves its pressure in the time told', () => {
    expectPrinted(chokedTime(cold, 0.5) * 1e3, '25.90330');
    expectPrinted(300 * vesselTemperatureRatio(0.5, 1.4), '246.1006');
    expectPrinted(chokedTime(hot, 0.5) * 1e3, '0.3180039');
    expectPrinted(1400 * vesselTemperatureRatio(0.5, 1.33), '1178.790');
    expect(chokedPressureRatio(cold, chokedTime(cold, 0.3))).toBeCloseTo(0.3, 13);
  });

  it('ends in a subsonic tail of known length', () => {
    expectRow([subsonicTailTime(1.4), subsonicTailTime(1.33)], '1.208202 1.206033');
  });

  it('follows its mass and energy balance, integrated by Runge and Kutta', () => {
    const room = 1e5;
    const { gas, volume, effectiveArea } = cold;
    // Isentropic contents: dp/dt = -g (p/rho) m/V.
    const rate = (p: number) => {
      const temperature = gas.temperature * (p / gas.pressure) ** (0.4 / 1.4);
      const flow = effectiveArea * massFlux({ ...gas, pressure: p, temperature }, room / p);
      return (-1.4 * gas.gasConstant * temperature * flow) / volume;
    };
    let p = gas.pressure;
    const dt = 1e-4;
    for (let i = 1; i <= 1000; i += 1) {
      const k1 = rate(p);
      const k2 = rate(p + 0.5 * dt * k1);
      const k3 = rate(p + 0.5 * dt * k2);
      p += (dt * (k1 + 2 * k2 + 2 * k3 + rate(p + dt * k3))) / 6;
      if (i % 100 === 0) expect(p / blowDownPressure(cold, room, i * dt)).toBeCloseTo(1, 5);
    }
    expect(p).toBeLessThan(1.9 * room);
    expect(blowDownPressure(cold, room, 1)).toBe(room);
  });
});
