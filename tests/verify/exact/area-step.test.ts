import { describe, expect, it } from 'vitest';
import {
  bordaStep,
  constantPressureStep,
  isentropicStep,
  linearStep,
  type StepWaves,
} from '../../../src/verify/exact/area-step.ts';
import { expectRow } from './digits.ts';

const pair = (waves: StepWaves | null): number[] => [
  waves?.reflected ?? Number.NaN,
  waves?.transmitted ?? Number.NaN,
];

describe('wave at an area step, gamma 1.4', () => {
  // Linear acoustics; derived from continuity of pressure and volume velocity. R, T on the overpressure.
  it.each([
    [0.25, '.6 1.6'],
    [0.5, '.333333 1.333333'],
    [2, '-.333333 .666667'],
    [4, '-.6 .4'],
    [6.25, '-.724138 .275862'],
    [9, '-.8 .2'],
  ] as const)('linear, F2/F1 = %s', (m, row) => {
    const { reflected, transmitted } = linearStep(m);
    expectRow([reflected, transmitted], row);
    expect(reflected ** 2 + m * transmitted ** 2).toBeCloseTo(1, 14);
  });

  // Benson (1982), from memory, recomputed; Borda-Carnot derived here. P_i, F2/F1; reflected and transmitted ratio, one pair a model.
  it.each([
    [1.2, 2, '.93333 1.13333', '.940029 1.129837', '.927791 1.135259', '.932342 1.133458'],
    [1.2, 4, '.88000 1.08000', '.894298 1.076268', '.867568 1.082081', '.885169 1.078674'],
    [1.2, 8.38, '.84264 1.04264', '.863414 1.040056', '.823888 1.044096', '.856847 1.041098'],
    [1.2, 0.5, '1.06667 1.26667', '1.063221 1.273864', '1.069230 1.262850', null],
    [1.2, 0.25, '1.12000 1.32000', '1.116235 1.335730', '1.122696 1.311803', null],
    [1.5, 2, '.83333 1.33333', '.868882 1.313772', '.789906 1.341452', '.825811 1.332035'],
    [1.5, 4, '.70000 1.20000', '.774875 1.179411', '.572269 1.207692', '.730319 1.191979'],
    [1.5, 0.5, '1.16667 1.66667', '1.147724 1.708411', '1.182573 1.649021', null],
    [0.8, 4, '1.12000 .92000', '1.139455 .915389', '1.109582 .923609', null],
  ] as const)('a wave of %s at F2/F1 = %s', (incident, m, linear, constant, isentropic, borda) => {
    const small = linearStep(m);
    expectRow(
      [1 + small.reflected * (incident - 1), 1 + small.transmitted * (incident - 1)],
      linear,
      'linear',
    );
    expectRow(pair(constantPressureStep(incident, m, 1.4)), constant, 'constant pressure');
    expectRow(pair(isentropicStep(incident, m, 1.4)), isentropic, 'isentropic');
    if (borda !== null) expectRow(pair(bordaStep(incident, m, 1.4)), borda, 'Borda');
  });

  it('has no loss-free subsonic flow for 1.5 into 8.38 times the area, but one with the loss', () => {
    expect(isentropicStep(1.5, 8.38, 1.4)).toBeNull();
    expect(bordaStep(1.5, 8.38, 1.4)).not.toBeNull();
  });

  it('agrees with linear acoustics for a wave of 1.02 to 6e-4', () => {
    for (const m of [2, 4, 8.38]) {
      const small = linearStep(m);
      for (const model of [constantPressureStep, isentropicStep, bordaStep]) {
        const [reflected = 0, transmitted = 0] = pair(model(1.02, m, 1.4));
        expect(Math.abs(reflected - 1 - 0.02 * small.reflected)).toBeLessThan(6e-4);
        expect(Math.abs(transmitted - 1 - 0.02 * small.transmitted)).toBeLessThan(6e-4);
      }
    }
  });

  it('reflects nothing without a step', () => {
    for (const model of [constantPressureStep, isentropicStep, bordaStep]) {
      expectRow(pair(model(1.3, 1, 1.4)), '1.00000000 1.30000000');
    }
  });

  it('refuses a Borda-Carnot contraction', () => {
    expect(() => bordaStep(1.2, 0.5, 1.4)).toThrow(RangeError);
  });
});
