/**
 * Stage 2 of the finite-volume scheme: the flux between the two states of a face after HLLC. Two waves of speeds S_L and S_R and a
 * contact of speed S* between them hold the balances of mass, momentum and energy:
 *   S*    = [p_R - p_L + m_L u_L - m_R u_R]/(m_L - m_R),   m_K = rho_K (S_K - u_K)
 *   p*    = p_K + m_K (S* - u_K),   rho*_K = m_K/(S_K - S*)
 *   E*_K  = rho*_K [E_K/rho_K + (S* - u_K)(S* + p_K/m_K)]
 * and the flux is that of the state in which the face lies: rho u, rho u^2 + p, (E + p) u, and rho u Y with Y from upstream.
 * Speeds from an estimate of the pressure between,
 *   p° = max(0, (p_L + p_R)/2 - (u_R - u_L) rho a/2),  rho and a means,
 *   S_L = u_L - a_L q_L,  S_R = u_R + a_R q_R,  q = sqrt(1 + (gamma+1)/(2 gamma) (p°/p - 1)) where p° > p, else 1.
 * gamma, and with it a, are each side's own, of its temperature and composition; E comes from the gas tables, so the balances
 * are those of the gas as it is.
 * Source: Toro 2009, chapter 10 (from memory; the balances derived here).
 */

import { type DuctState, GHOSTS } from '../conservative/state.ts';

/** Fills the fluxes of the interior faces; `impulse` is rho u^2 + p [Pa], the others are flows [kg/s, W, kg/s]. */
export function fluxes(duct: DuctState, impulse: Float64Array): void {
  const { rLeft, uLeft, pLeft, yLeft, rRight, uRight, pRight, yRight, gamma, cells, gas, mixed } = duct;
  const { massFlux, energyFlux, burntFlux } = duct;
  const { faceArea } = duct.geometry;
  const Rf = gas.gasConstantFresh;
  const dR = gas.gasConstantBurnt - Rf;
  for (let j = 1; j < cells; j++) {
    const rl = rLeft[j];
    const ul = uLeft[j];
    const pl = pLeft[j];
    const rr = rRight[j];
    const ur = uRight[j];
    const pr = pRight[j];
    const gl = gamma[j + GHOSTS - 1];
    const gr = gamma[j + GHOSTS];
    const al = Math.sqrt((gl * pl) / rl);
    const ar = Math.sqrt((gr * pr) / rr);
    const guess = 0.5 * (pl + pr) - 0.125 * (ur - ul) * (rl + rr) * (al + ar);
    const sl = ul - al * steepening(guess, pl, gl);
    const sr = ur + ar * steepening(guess, pr, gr);
    const ml = rl * (sl - ul);
    const mr = rr * (sr - ur);
    const star = (pr - pl + ml * ul - mr * ur) / (ml - mr);
    const fromLeft = star >= 0;
    const rho = fromLeft ? rl : rr;
    const u = fromLeft ? ul : ur;
    const p = fromLeft ? pl : pr;
    const m = fromLeft ? ml : mr;
    const s = fromLeft ? sl : sr;
    const y = mixed ? (fromLeft ? yLeft[j] : yRight[j]) : 0;
    const inner = gas.energy(p / (rho * (Rf + dR * y)), y) + 0.5 * u * u;
    // Upstream of all three waves the face keeps the state as it came.
    const whole = fromLeft ? s >= 0 : s <= 0;
    const rhoFace = whole ? rho : m / (s - star);
    const uFace = whole ? u : star;
    const pFace = whole ? p : p + m * (star - u);
    const eFace = whole ? inner : inner + (star - u) * (star + p / m);
    const flux = rhoFace * uFace;
    const flow = flux * faceArea[j];
    massFlux[j] = flow;
    impulse[j] = flux * uFace + pFace;
    energyFlux[j] = flow * eFace + uFace * pFace * faceArea[j];
    burntFlux[j] = flow * y;
  }
}

/** How much faster than sound a wave runs into gas of pressure p that takes it to a pressure [-]. */
function steepening(to: number, p: number, g: number): number {
  return to > p ? Math.sqrt(1 + ((g + 1) / (2 * g)) * (to / p - 1)) : 1;
}
