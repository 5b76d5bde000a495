/**
 * Flow between two volumes through a passage with an opening at its end: quasi-steady, or with the inertia of the gas
 * column in the passage.
 *   quasi-steady   m = A p0/sqrt(R T0) psi(p/p0), choked below the critical ratio
 *   with inertia   (L/A_p) dm/dt = dp [1 - (m/m_qs)|m/m_qs|],  m_qs the quasi-steady flow at the present dp:
 *                  the column is accelerated by what the opening's loss leaves of the pressure difference (derived here).
 * Source of the quasi-steady flow: standard compressible orifice, e.g. Heywood 1988, appendix C (from memory).
 */

import { power } from '../arithmetic/functions.ts';
import { criticalRatio } from '../gas/critical-ratio.ts';
import { RESERVOIR, type Reservoir } from '../gas/reservoir.ts';

/** Slots of a passage at work. */
export const PASSAGE = {
  /** Pressure behind the opening [Pa], and the quasi-steady flow per effective area to there [kg/(s m2)]. */
  outside: 0,
  flux: 1,
  /** Quasi-steady flow at the present difference and signed like it [kg/s], the difference [Pa], L/A_p [1/m]. */
  steady: 2,
  difference: 3,
  inertance: 4,
  /** Flow of the column, and the time over which it moves on [kg/s, s]. */
  flow: 5,
  dt: 6,
} as const;

export type Passage = Float64Array;

export function newPassage(): Passage {
  return new Float64Array(7);
}

/** Fills the quasi-steady flow per effective area from a reservoir to the pressure outside. */
export function fillFlux(passage: Passage, reservoir: Reservoir): void {
  const p0 = reservoir[RESERVOIR.pressure];
  const outside = passage[PASSAGE.outside];
  passage[PASSAGE.flux] = 0;
  if (outside >= p0) return;
  const g = reservoir[RESERVOIR.gamma];
  const a0 = reservoir[RESERVOIR.soundSpeed];
  // rho u at the throat with rho0 = gamma p0/a0^2; T/T0 = z is 2/(gamma + 1) where the throat is sonic.
  const sonic = 2 / (g + 1);
  const open = power(outside / p0, (g - 1) / g);
  const choked = open < sonic;
  const z = choked ? sonic : open;
  const ratio = choked ? criticalRatio(g) : outside / p0;
  passage[PASSAGE.flux] = ((g * p0) / a0) * (ratio / z) * Math.sqrt((2 / (g - 1)) * (1 - z));
}

/** Moves the column's flow on over dt. Implicit, so a closing opening stops the flow. */
export function moveColumn(passage: Passage): void {
  const difference = passage[PASSAGE.difference];
  const limit = Math.abs(passage[PASSAGE.steady]);
  const k = (passage[PASSAGE.dt] * Math.abs(difference)) / passage[PASSAGE.inertance];
  const sign = difference >= 0 ? 1 : -1;
  // In the direction of the difference: m' = m + k (1 - (m'/m_qs)|m'/m_qs|)
  const m = sign * passage[PASSAGE.flow] + k;
  passage[PASSAGE.flow] = 0;
  if (!(limit > 1e-12)) return;
  const c = k / (limit * limit);
  const root = (2 * m) / (1 + Math.sqrt(1 + 4 * c * Math.abs(m)));
  passage[PASSAGE.flow] = sign * root;
}
