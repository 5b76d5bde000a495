import { describe, expect, it } from 'vitest';
import { reflectShock, wallPressureRatio } from '../../../src/verify/exact/closed-end.ts';
import {
  burstDiaphragm,
  constantPressureReflection,
  diaphragmChokingRatio,
  openEndChokingRatio,
  openEndOutflow,
  reflectAtOpenEnd,
} from '../../../src/verify/exact/open-end.ts';
import { solveRiemann } from '../../../src/verify/exact/riemann.ts';
import { restSoundSpeed, simpleWave, superpose } from '../../../src/verify/exact/simple-wave.ts';
import {
  chokedPipeMach,
  reflectAtPartlyOpenEnd,
  reflectionFreeOpening,
} from '../../exact/partly-open-end.ts';
import { portInflow } from '../../exact/port-inflow.ts';
import { expectPrinted, expectRow } from './digits.ts';

const air20 = { gamma: 1.4, gasConstant: 287, temperature: 293.15, pressure: 1e5 };

describe('closed end', () => {
  it.each([
    [0.5, '0.231645'],
    [0.8, '0.635314'],
    [1.1, '1.208452'],
    [1.2, '1.433350'],
    [1.5, '2.200588'],
    [2, '3.757674'],
    [3, '7.752105'],
  ] as const)('doubles an isentropic wave of %s', (incident, printed) => {
    expectPrinted(wallPressureRatio(incident, 1.4), printed);
    expect(superpose(air20, incident, incident).pressure / 1e5).toBeCloseTo(
      wallPressureRatio(incident, 1.4),
      12,
    );
  });

  // Wall pressure, Mach number, speed, gas velocity by the shock and by the isentropic wave, entropy level less 1; derived here.
  it.each([
    [1.1, '1.208451 1.041976 357.608 23.5269 23.5245 1.26e-5'],
    [1.2, '1.433333 1.082326 371.456 45.2996 45.2822 8.83e-5'],
    [1.5, '2.200000 1.195229 410.205 102.5512 102.3326 9.68e-4'],
    [2, '3.750000 1.362770 467.706 179.8868 178.6187 4.81e-3'],
    [3, '7.666667 1.647509 565.429 297.5939 291.6030 1.89e-2'],
  ] as const)('reflects a shock of %s', (strength, row) => {
    const s = reflectShock(strength, 1.4);
    expectRow(
      [
        s.wallPressureRatio,
        s.mach,
        s.mach * restSoundSpeed(air20),
        s.gasVelocity * restSoundSpeed(air20),
        simpleWave(air20, strength).velocity,
        s.entropyLevel - 1,
      ],
      row,
    );
  });

  it('reflects a shock as two equal streams that collide', () => {
    const s = reflectShock(2, 1.33);
    const a0 = Math.sqrt(1.33);
    const k = 0.33 / 2.33;
    const behind = { gamma: 1.33, density: (2 + k) / (2 * k + 1), pressure: 2, velocity: s.gasVelocity * a0 };
    expect(solveRiemann(behind, { ...behind, velocity: -behind.velocity }).pressure).toBeCloseTo(
      s.wallPressureRatio,
      11,
    );
  });

  it('knows when the gas leaves the wall', () => {
    expect(() => wallPressureRatio(0.001, 1.4)).toThrow(RangeError);
  });
});

describe('open end', () => {
  // Benson (1982), from memory; recomputed: reflected ratio, U/a0, end pressure.
  it.each([
    [1.2, '0.829280 0.263881 1.000000'],
    [1.5, '0.650247 0.596340 1.000000'],
    [2, '0.488532 1.006816 1.048698'],
    [2.5, '0.586329 1.066420 1.568553'],
    [3, '0.681132 1.116551 2.163470'],
  ] as const)('lets a compression of %s out', (incident, row) => {
    const end = reflectAtOpenEnd(incident, 1.4);
    expectRow([end.reflectedRatio, end.velocity, end.pressureRatio], row);
    expect(end.choked).toBe(incident >= 2);
  });

  // Bellmouth without loss: inward U/a0, A, end pressure, reflected ratio, and the reflected ratio at constant end pressure.
  it.each([
    [0.9, '0.139630 0.998048 0.986419 1.094530 1.109377'],
    [0.8, '0.275620 0.992374 0.947826 1.178569 1.241412'],
    [0.7, '0.411413 0.982928 0.886447 1.251817 1.404075'],
  ] as const)('draws in under an expansion of %s', (incident, row) => {
    const end = reflectAtOpenEnd(incident, 1.4);
    expectRow(
      [
        -end.velocity,
        end.soundSpeed,
        end.pressureRatio,
        end.reflectedRatio,
        constantPressureReflection(incident, 1.4),
      ],
      row,
    );
    expect(end.soundSpeed ** 2 + 0.2 * end.velocity ** 2).toBeCloseTo(1, 13);
  });

  it('chokes from a ratio that depends on gamma alone', () => {
    expectRow([1.4, 1.33, 1.25].map(openEndChokingRatio), '1.948717 1.894566 1.833536');
    expectRow([1.4, 1.33, 1.25].map(diaphragmChokingRatio), '3.583181 3.424736 3.247321');
  });

  it('passes smoothly into choking', () => {
    const ratio = openEndChokingRatio(1.4);
    const before = reflectAtOpenEnd(ratio * (1 - 1e-9), 1.4);
    const after = reflectAtOpenEnd(ratio * (1 + 1e-9), 1.4);
    expect(before.choked).toBe(false);
    expect(after.choked).toBe(true);
    expect(after.velocity).toBeCloseTo(before.velocity, 7);
    expect(after.soundSpeed).toBeCloseTo(after.velocity, 12);
  });

  it('lets a burst diaphragm go', () => {
    const choked = burstDiaphragm(5, 1.4);
    expectPrinted(choked.pressureRatio, '0.279082');
    expect(choked.soundSpeed).toBeCloseTo(2 / 2.4, 12);
    const mild = burstDiaphragm(2, 1.4);
    expectRow([mild.soundSpeed, mild.velocity], '0.905724 0.471382');
    expect(mild.pressureRatio).toBeCloseTo(0.5, 12);
  });

  it('refuses to call inflow outflow', () => {
    expect(() => openEndOutflow(0.9, 1.4)).toThrow(RangeError);
  });
});

describe('partly open end', () => {
  it.each([
    [0.1, '.057987 .058440'],
    [0.2, '.116689 .117591'],
    [0.3352, '.198609 .200101'],
    [0.5, '.305904 .308065'],
    [0.7, '.458324 .461123'],
    [0.9, '.678194 .680979'],
  ] as const)('has one Mach number ahead of a choked throat of %s', (phi, row) => {
    expectRow([chokedPipeMach(phi, 1.4), chokedPipeMach(phi, 1.33)], row);
  });

  // Benson (1982), nozzle, from memory; recomputed: U, A, end pressure, reflected ratio.
  it.each([
    [1.2, 0.1, '0.053515 1.042073 1.334405 1.115099', false],
    [1.2, 0.3, '0.138510 1.025074 1.189288 0.990838', false],
    [1.2, 0.5, '0.195757 1.013625 1.099361 0.914006', false],
    [1.5, 0.1, '0.064159 1.106436 2.029947 1.377376', true],
    [1.5, 0.3, '0.190598 1.081148 1.726623 1.160678', false],
    [1.5, 0.5, '0.313146 1.056639 1.470570 0.979221', false],
    [2, 0.3, '0.206413 1.166896 2.945954 1.531723', true],
    [2, 0.5, '0.348279 1.138523 2.479668 1.267415', true],
  ] as const)('reflects %s at an opening of %s', (incident, phi, row, choked) => {
    const end = reflectAtPartlyOpenEnd(incident, phi, 1.4);
    expectRow([end.velocity, end.soundSpeed, end.pressureRatio, end.reflectedRatio], row);
    expect(end.choked).toBe(choked);
  });

  it('satisfies the equation of the textbook when not choked', () => {
    const phi = 0.4;
    const { velocity: u, soundSpeed: a } = reflectAtPartlyOpenEnd(1.3, phi, 1.33);
    const h = 0.165;
    expect((a ** (2 / h) - phi ** 2) * u * u).toBeCloseTo((phi ** 2 * (a * a - 1)) / h, 13);
  });

  it('has an opening that reflects nothing, wider for stronger waves', () => {
    expectRow(
      [1.1, 1.2, 1.5, 2].map((p) => reflectionFreeOpening(p, 1.4)),
      '.19422 .28164 .47507 .71493',
    );
  });

  it('becomes the closed end and the open end in its limits', () => {
    expect(reflectAtPartlyOpenEnd(1.4, 1e-7, 1.4).pressureRatio).toBeCloseTo(wallPressureRatio(1.4, 1.4), 5);
    const open = reflectAtPartlyOpenEnd(1.4, 1, 1.4);
    expect(open.reflectedRatio).toBeCloseTo(reflectAtOpenEnd(1.4, 1.4).reflectedRatio, 12);
  });
});

describe('port into a pipe at rest', () => {
  const exhaust = { gamma: 1.33, gasConstant: 290 };
  const cold = { gamma: 1.4, gasConstant: 287 };
  const hotVessel = { ...exhaust, pressure: 4e5, temperature: 1200 };
  const hotPipe = { ...exhaust, pressure: 1.013e5, temperature: 700 };
  const coldVessel = { ...cold, pressure: 1.5e5, temperature: 293 };
  const coldPipe = { ...cold, pressure: 1e5, temperature: 293 };

  // Benson's constant-pressure port (1982, from memory) with the exact match at the contact: p2/p1, u2, T2, M2, entropy level, flux.
  it.each([
    ['hot', 0.1, '1.33979 116.38 1194.2 0.17148 1.2596 45.608', true],
    ['hot', 0.2, '1.61111 191.95 1184.2 0.28401 1.2260 91.217', true],
    ['hot', 0.5, '2.25118 333.53 1152.4 0.50027 1.1602 227.58', false],
    ['hot', 0.8, '2.70460 413.72 1126.8 0.62757 1.1214 346.88', false],
    ['cold', 0.1, '1.10327 24.256 292.71 0.07073 0.98557 31.855', false],
    ['cold', 0.2, '1.18383 41.861 292.13 0.12218 0.97473 59.107', false],
    ['cold', 0.5, '1.33233 71.782 290.44 0.21013 0.95563 114.73', false],
    ['cold', 0.8, '1.40295 85.019 289.40 0.24932 0.94691 143.61', false],
  ] as const)('%s, opening %s of the pipe', (which, phi, row, choked) => {
    const jet = which === 'hot' ? portInflow(hotVessel, hotPipe, phi) : portInflow(coldVessel, coldPipe, phi);
    expectRow(
      [jet.pressureRatio, jet.velocity, jet.temperature, jet.mach, jet.entropyLevel, jet.massFlux],
      row,
    );
    expect(jet.choked).toBe(choked);
  });

  it('keeps total enthalpy and never lowers the entropy of the vessel', () => {
    for (const phi of [0.05, 0.3, 0.9]) {
      const jet = portInflow(hotVessel, hotPipe, phi);
      const cp = (1.33 * 290) / 0.33;
      expect(cp * jet.temperature + 0.5 * jet.velocity ** 2).toBeCloseTo(cp * 1200, 5);
      const vesselLevel = Math.sqrt(1200 / 700) / (4 / 1.013) ** (0.33 / 2.66);
      expect(jet.entropyLevel).toBeGreaterThan(vesselLevel);
    }
  });
});
