/**
 * A passage between two volumes: the quasi-steady flow against the choked and subsonic flow of a nozzle, and the column of
 * gas in its limits. Ring: exact solution.
 */

import { describe, expect, test } from 'vitest';
import { GasModel, newReservoir, type Reservoir, setReservoir } from '../../solver/index.ts';
import { fillFlux, moveColumn, newPassage, PASSAGE } from '../../solver/volumes/passage.ts';
import { expectPrinted } from '../verify/exact/digits.ts';

/** Quasi-steady flow per effective area [kg/(s m2)]. */
function orificeFlux(reservoir: Reservoir, outside: number): number {
  const passage = newPassage();
  passage[PASSAGE.outside] = outside;
  fillFlux(passage, reservoir);
  return passage[PASSAGE.flux]!;
}

/** Flow of a column after dt [kg/s]. */
function columnFlow(flow: number, steady: number, difference: number, inertance: number, dt: number): number {
  const passage = newPassage();
  passage[PASSAGE.flow] = flow;
  passage[PASSAGE.steady] = steady;
  passage[PASSAGE.difference] = difference;
  passage[PASSAGE.inertance] = inertance;
  passage[PASSAGE.dt] = dt;
  moveColumn(passage);
  return passage[PASSAGE.flow]!;
}

describe('quasi-steady flow through 500 mm2', () => {
  // Choked flow (Shapiro 1953 and any text), and at y = p/p0 = 0.8; recomputed [kg/s].
  test.each([
    [1.4, 287.05, 101325, 288.15, '0.120620', '0.098764'],
    [1.33, 289, 4e5, 1200, '0.228437', '0.189212'],
    [1.25, 290, 6e5, 1400, '0.309832', null],
  ] as const)('gamma %s', (gamma, R, p0, T0, choked, subsonic) => {
    const reservoir = newReservoir();
    setReservoir(reservoir, GasModel.perfectGas(gamma, R), p0, T0, 0);
    expectPrinted(500e-6 * orificeFlux(reservoir, 0.1 * p0), choked);
    expectPrinted(500e-6 * orificeFlux(reservoir, 0.5 * p0), choked);
    if (subsonic !== null) expectPrinted(500e-6 * orificeFlux(reservoir, 0.8 * p0), subsonic);
    expect(orificeFlux(reservoir, p0)).toBe(0);
  });
});

describe('the column of gas', () => {
  const difference = 2e4;
  const steady = 0.05;
  const inertance = 300;

  test('is driven from rest by the whole difference', () => {
    const dt = 1e-9;
    expect(columnFlow(0, steady, difference, inertance, dt) / ((difference / inertance) * dt)).toBeCloseTo(
      1,
      5,
    );
  });

  test('comes up as a hyperbolic tangent (derived here: m = m_qs tanh(t dp/(I m_qs)))', () => {
    const time = (0.8 * steady * inertance) / difference;
    const error = (steps: number): number => {
      let flow = 0;
      for (let k = 0; k < steps; k++) flow = columnFlow(flow, steady, difference, inertance, time / steps);
      return Math.abs(flow / (steady * Math.tanh(0.8)) - 1);
    };
    expect(error(1000)).toBeLessThan(1e-3);
    expect(error(1000) / error(2000)).toBeCloseTo(2, 1);
  });

  test('settles at the quasi-steady flow, both ways', () => {
    expect(columnFlow(0, steady, difference, inertance, 1e4) / steady).toBeCloseTo(1, 6);
    expect(columnFlow(0.3, -steady, -difference, inertance, 1e4) / -steady).toBeCloseTo(1, 6);
  });

  test('goes on against the difference for a while', () => {
    const flow = columnFlow(0.03, -steady, -difference, inertance, 1e-5);
    expect(flow).toBeGreaterThan(0);
    expect(flow).toBeLessThan(0.03);
  });

  test('stops with a closing opening, without stiffness', () => {
    expect(Math.abs(columnFlow(0.03, 1e-9, difference, inertance, 1e-6))).toBeLessThan(1e-4);
    expect(columnFlow(0.03, 0, difference, inertance, 1e-6)).toBe(0);
  });
});
