/**
 * Flow between two volumes through a passage with an opening at its end: quasi-steady, or with the inertia of the gas
 * column in the passage.
 *   quasi-steady   m = A p0/sqrt(R T0) psi(p/p0), choked below the critical ratio
 *   with inertia   (L/A_p) dm/dt = dp [1 - (m/m_qs)|m/m_qs|],  m_qs the quasi-steady flow at the present dp:
 *                  the column is accelerated by what the opening's loss leaves of the pressure difference (derived here).
 * Source of the quasi-steady flow: standard compressible orifice, e.g. Heywood 1988, appendix C (from memory).
 */

import { RESERVOIR, type Reservoir } from '../ends/reservoir.ts';

/** Mass flow per effective area from a reservoir to a pressure [kg/(s m2)]. */
export function orificeFlux(reservoir: Reservoir, outside: number): number {
  const p0 = reservoir[RESERVOIR.pressure];
  if (outside >= p0) return 0;
  const g = reservoir[RESERVOIR.gamma];
  const critical = (2 / (g + 1)) ** (g / (g - 1));
  const ratio = outside / p0 > critical ? outside / p0 : critical;
  const a0 = reservoir[RESERVOIR.soundSpeed];
  // rho u at the throat with rho0 = gamma p0/a0^2
  const z = ratio ** ((g - 1) / g);
  return ((g * p0) / a0) * (ratio / z) * Math.sqrt((2 / (g - 1)) * (1 - z));
}

/**
 * Flow after dt of a column that flowed at `flow` [kg/s]. `steady` is the quasi-steady flow at the present difference,
 * signed like it [kg/s]; `difference` in Pa, `inertance` = L/A_p [1/m]. Implicit, so a closing opening stops the flow.
 */
export function columnFlow(
  flow: number,
  steady: number,
  difference: number,
  inertance: number,
  dt: number,
): number {
  const k = (dt * Math.abs(difference)) / inertance;
  const limit = Math.abs(steady);
  if (!(limit > 1e-12)) return 0;
  const sign = difference >= 0 ? 1 : -1;
  // In the direction of the difference: m' = m + k (1 - (m'/m_qs)|m'/m_qs|)
  const m = sign * flow + k;
  const c = k / (limit * limit);
  const root = (2 * m) / (1 + Math.sqrt(1 + 4 * c * Math.abs(m)));
  return sign * root;
}
