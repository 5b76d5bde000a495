/**
 * Ends of a duct, each by itself: the arriving characteristic of a simple wave on gas at rest is handed to the end, and its
 * answer held to printed tables. Ring: exact solution. Sources beside each table.
 */

import { describe, expect, test } from 'vitest';
import { completeArrival } from '../../solver/duct/arrival.ts';
import { answerClosed } from '../../solver/ends/closed.ts';
import { answerNonReflecting } from '../../solver/ends/non-reflecting.ts';
import { answerOrifice, chokedMach } from '../../solver/ends/orifice.ts';
import { answerStep } from '../../solver/ends/step.ts';
import { ANSWER, ARRIVE, type DuctEnd, GasModel, newReservoir, setReservoir } from '../../solver/index.ts';
import { bordaStep, contractedStep, isentropicStep } from '../../src/verify/exact/area-step.ts';
import { reflectAtOpenEnd } from '../../src/verify/exact/open-end.ts';
import { expectRow } from '../verify/exact/digits.ts';
import { straight } from './constant-gamma.ts';

const GAMMA = 1.4;
const UNIT = GasModel.perfectGas(GAMMA, 1 / GAMMA);

/** Gas at rest with p = 1, a = 1 (T = 1, R = 1/gamma), and a wave of pressure ratio P running out of the duct upon it. */
function simpleWaveAt(side: 'left' | 'right', P: number, diameter = 1): DuctEnd {
  const duct = straight('duct', 1, diameter, 6, UNIT);
  const X = P ** ((GAMMA - 1) / (2 * GAMMA));
  arrive(duct[side], P, X * X, (2 / (GAMMA - 1)) * (X - 1), GAMMA, UNIT);
  return duct[side];
}

function arrive(end: DuctEnd, p: number, T: number, u: number, gamma: number, gas: GasModel): void {
  const s = end.arrive;
  const R = gas.gasConstant(0);
  s[ARRIVE.pressure] = p;
  s[ARRIVE.temperature] = T;
  s[ARRIVE.density] = p / (R * T);
  s[ARRIVE.velocity] = u;
  s[ARRIVE.burnt] = 0;
  s[ARRIVE.gamma] = gamma;
  s[ARRIVE.soundSpeed] = Math.sqrt(gamma * R * T);
  completeArrival(end);
}

function atmosphere() {
  const reservoir = newReservoir();
  setReservoir(reservoir, UNIT, 1, 1, 0);
  return reservoir;
}

/** Velocity, sound speed, pressure and reflected wave that an end answers with, in units of the gas at rest. */
function reflected(end: DuctEnd): [number, number, number, number] {
  const out = end.answer;
  const u = out[ANSWER.velocity]!;
  const p = out[ANSWER.pressure]!;
  const a = Math.sqrt((GAMMA * p) / out[ANSWER.density]!);
  const X = p ** ((GAMMA - 1) / (2 * GAMMA));
  const back = 0.5 * (X + 1) - 0.25 * (GAMMA - 1) * u;
  return [u, a, p, back ** ((2 * GAMMA) / (GAMMA - 1))];
}

describe('nozzle and partly open end, outflow', () => {
  // Benson, The Thermodynamics and Gas Dynamics of Internal-Combustion Engines (1982), nozzle, from memory; recomputed:
  // U, A, end pressure, reflected wave.
  test.each([
    [1.2, 0.1, '0.053515 1.042073 1.334405 1.115099'],
    [1.2, 0.3, '0.138510 1.025074 1.189288 0.990838'],
    [1.2, 0.5, '0.195757 1.013625 1.099361 0.914006'],
    [1.5, 0.1, '0.064159 1.106436 2.029947 1.377376'],
    [1.5, 0.3, '0.190598 1.081148 1.726623 1.160678'],
    [1.5, 0.5, '0.313146 1.056639 1.470570 0.979221'],
    [2, 0.3, '0.206413 1.166896 2.945954 1.531723'],
    [2, 0.5, '0.348279 1.138523 2.479668 1.267415'],
  ] as const)('a wave of %s at an opening of %s', (P, phi, row) => {
    for (const side of ['left', 'right'] as const) {
      const end = simpleWaveAt(side, P);
      end.opening = phi;
      answerOrifice(end, atmosphere());
      expectRow(reflected(end), row, `${side} end`);
    }
  });

  // Mach number on the face of a choked opening, gamma 1.4 and 1.33; same source.
  test.each([
    [0.1, '.057987 .058440'],
    [0.2, '.116689 .117591'],
    [0.3352, '.198609 .200101'],
    [0.5, '.305904 .308065'],
    [0.7, '.458324 .461123'],
    [0.9, '.678194 .680979'],
  ] as const)('choked at an opening of %s', (phi, row) => {
    expectRow([chokedMach(phi, 1.4), chokedMach(phi, 1.33)], row);
  });

  // Opening that reflects nothing; same source.
  test.each([
    [1.1, 0.19422],
    [1.2, 0.28164],
    [1.5, 0.47507],
    [2, 0.71493],
  ])('a wave of %s finds nothing to reflect it at an opening of %s', (P, phi) => {
    const end = simpleWaveAt('right', P);
    end.opening = phi;
    answerOrifice(end, atmosphere());
    expect(Math.abs(reflected(end)[3] - 1)).toBeLessThan(1e-5);
  });
});

describe('open end', () => {
  // Benson (1982), from memory; recomputed: reflected wave, U.
  test.each([
    [1.2, '0.829280 0.263881'],
    [1.5, '0.650247 0.596340'],
    [2, '0.488532 1.006816'],
    [2.5, '0.586329 1.066420'],
    [3, '0.681132 1.116551'],
  ] as const)('outflow under a wave of %s', (P, row) => {
    const end = simpleWaveAt('right', P);
    end.opening = 1;
    answerOrifice(end, atmosphere());
    const [u, , , back] = reflected(end);
    expectRow([back, u], row);
  });

  // Inflow through a loss-free bellmouth: U inwards, A, end pressure, reflected wave; same source.
  test.each([
    [0.9, '0.139630 0.998048 0.986419 1.094530'],
    [0.8, '0.275620 0.992374 0.947826 1.178569'],
    [0.7, '0.411413 0.982928 0.886447 1.251817'],
  ] as const)('inflow under a wave of %s', (P, row) => {
    const end = simpleWaveAt('left', P);
    end.opening = 1;
    answerOrifice(end, atmosphere());
    const [u, a, p, back] = reflected(end);
    expectRow([-u, a, p, back], row);
  });

  test('agrees with the exact open end for any wave between', () => {
    for (let P = 0.62; P < 3.2; P += 0.07) {
      const end = simpleWaveAt('right', P);
      end.opening = 1;
      answerOrifice(end, atmosphere());
      expect(reflected(end)[3]).toBeCloseTo(reflectAtOpenEnd(P, GAMMA).reflectedRatio, 11);
    }
  });
});

describe('port from a vessel into a pipe at rest', () => {
  const hot = { gamma: 1.33, R: 290, vessel: [4e5, 1200], pipe: [1.013e5, 700] } as const;
  const cold = { gamma: 1.4, R: 287, vessel: [1.5e5, 293], pipe: [1e5, 293] } as const;
  // Constant-pressure port (Benson 1982, from memory), exact contact (derived here): p2/p1, u2, T2, M2, entropy level, flux.
  test.each([
    [hot, 0.1, '1.33979 116.38 1194.2 0.17148 1.2596 45.608'],
    [hot, 0.2, '1.61111 191.95 1184.2 0.28401 1.2260 91.217'],
    [hot, 0.5, '2.25118 333.53 1152.4 0.50027 1.1602 227.58'],
    [hot, 0.8, '2.70460 413.72 1126.8 0.62757 1.1214 346.88'],
    [cold, 0.1, '1.10327 24.256 292.71 0.07073 0.98557 31.855'],
    [cold, 0.2, '1.18383 41.861 292.13 0.12218 0.97473 59.107'],
    [cold, 0.5, '1.33233 71.782 290.44 0.21013 0.95563 114.73'],
    [cold, 0.8, '1.40295 85.019 289.40 0.24932 0.94691 143.61'],
  ] as const)('%o, opening %s of the pipe', ({ gamma, R, vessel, pipe }, phi, row) => {
    const gas = GasModel.perfectGas(gamma, R);
    const { left: end } = straight('pipe', 1, 0.04, 6, gas);
    arrive(end, pipe[0], pipe[1], 0, gamma, gas);
    const reservoir = newReservoir();
    setReservoir(reservoir, gas, vessel[0], vessel[1], 0);
    end.opening = phi;
    answerOrifice(end, reservoir);
    const out = end.answer;
    const p = out[ANSWER.pressure]!;
    const T = p / (out[ANSWER.density]! * R);
    const a = Math.sqrt(gamma * R * T);
    const level = (a / Math.sqrt(gamma * R * pipe[1])) * (p / pipe[0]) ** (-(gamma - 1) / (2 * gamma));
    const u = -out[ANSWER.velocity]!;
    expectRow([p / pipe[0], u, T, u / a, level, -out[ANSWER.mass]! / end.area], row);
  });
});

describe('closed end', () => {
  // NACA Report 1135 (1953), shock reflected by a wall: p1 at rest, incident shock p21, wall p5.
  test.each([
    [1.1, 1.208451],
    [1.2, 1.433333],
    [1.5, 2.2],
    [2, 3.75],
    [3, 7.666667],
  ])('a stream behind a shock of %s comes to rest at %s', (p21, wall) => {
    const { right: end } = straight('pipe', 1, 1, 6, UNIT);
    const k = (GAMMA - 1) / (GAMMA + 1);
    const r21 = (p21 + k) / (k * p21 + 1);
    const u = (1 / GAMMA) * (p21 - 1) * Math.sqrt((2 * GAMMA) / (GAMMA + 1) / (p21 + k));
    arrive(end, p21, p21 / r21, u, GAMMA, UNIT);
    answerClosed(end);
    expect(end.answer[ANSWER.pressure]).toBeCloseTo(wall, 5);
    expect(end.answer[ANSWER.mass]).toBe(0);
  });

  // Isentropic wave of expansion, X_w = 2 X_i - 1 (Benson 1982, from memory).
  test.each([
    [0.5, 0.231645],
    [0.8, 0.635314],
  ])('a suction wave of %s falls to %s', (P, wall) => {
    const end = simpleWaveAt('right', P);
    answerClosed(end);
    expect(end.answer[ANSWER.pressure]).toBeCloseTo(wall, 6);
  });
});

describe('non-reflecting end', () => {
  test('lets any wave pass out', () => {
    for (const P of [0.6, 0.9, 1.1, 1.8]) {
      const end = simpleWaveAt('left', P);
      answerNonReflecting(end, atmosphere(), 1);
      expect(reflected(end)[3]).toBeCloseTo(1, 12);
      expect(end.answer[ANSWER.pressure]).toBeCloseTo(P, 12);
    }
  });

  test('a stream faster than sound leaves as it comes', () => {
    const { right: end } = straight('pipe', 1, 1, 6, UNIT);
    arrive(end, 2, 1.1, 1.3, GAMMA, UNIT);
    answerNonReflecting(end, atmosphere(), 1);
    expect(end.answer[ANSWER.pressure]).toBeCloseTo(2, 13);
    expect(end.answer[ANSWER.velocity]).toBeCloseTo(1.3, 13);
  });
});

describe('sudden change of area, pipe 2 at rest', () => {
  const both = (P: number, m: number, contraction: number): [number, number] => {
    const first = simpleWaveAt('right', P);
    const second = simpleWaveAt('left', 1, Math.sqrt(m));
    answerStep(first, second, contraction);
    expect(first.answer[ANSWER.mass]).toBeCloseTo(-second.answer[ANSWER.mass]!, 14);
    expect(first.answer[ANSWER.energy]).toBeCloseTo(-second.answer[ANSWER.energy]!, 14);
    return [reflected(first)[3], second.answer[ANSWER.pressure]!];
  };

  // Borda-Carnot (derived here): reflected and transmitted wave. The transmitted wave is the pressure beyond the step.
  test.each([
    [1.2, 2, '.932342 1.133458'],
    [1.2, 4, '.885169 1.078674'],
    [1.2, 8.38, '.856847 1.041098'],
    [1.5, 2, '.825811 1.332035'],
    [1.5, 4, '.730319 1.191979'],
  ] as const)('a wave of %s into %s times the area', (P, m, row) => {
    expectRow(both(P, m, 1), row);
  });

  // Loss-free (derived here).
  test.each([
    [1.2, 0.5, '1.069230 1.262850'],
    [1.2, 0.25, '1.122696 1.311803'],
    [1.5, 0.5, '1.182573 1.649021'],
  ] as const)('a wave of %s into %s of the area, without contraction', (P, m, row) => {
    expectRow(both(P, m, 1), row);
  });

  test('agrees with the exact steps for any wave between', () => {
    for (const P of [1.05, 1.3, 1.7]) {
      const wide = bordaStep(P, 3, GAMMA)!;
      expect(both(P, 3, 1)[0]).toBeCloseTo(wide.reflected, 9);
      const narrow = isentropicStep(P, 0.4, GAMMA)!;
      expect(both(P, 0.4, 1)[0]).toBeCloseTo(narrow.reflected, 9);
    }
  });

  // Isentropic to the vena contracta, Borda-Carnot from there on (derived here).
  test.each([
    [1.2, 0.5, 0.68],
    [1.5, 0.5, 0.68],
    [1.3, 0.3, 0.64],
    [1.1, 0.8, 0.82],
  ])('a wave of %s over a sharp edge into %s of the area, contracted to %s', (P, m, contraction) => {
    const exact = contractedStep(P, m, contraction, GAMMA)!;
    const [back, on] = both(P, m, contraction);
    expect(back).toBeCloseTo(exact.reflected, 9);
    expect(on).toBeCloseTo(exact.transmitted, 9);
    // More comes back and less goes on than over a rounded one.
    const free = both(P, m, 1);
    expect(back).toBeGreaterThan(free[0]);
    expect(on).toBeLessThan(free[1]);
  });

  test('is the same from right to left', () => {
    const there = both(1.4, 3, 1);
    const second = simpleWaveAt('left', 1.4);
    const first = simpleWaveAt('right', 1, Math.sqrt(3));
    answerStep(first, second, 1);
    expect(reflected(second)[3]).toBeCloseTo(there[0], 13);
    expect(first.answer[ANSWER.pressure]).toBeCloseTo(there[1], 13);
  });
});
