/**
 * Stage 1 of the finite-volume scheme, MUSCL and Hancock's half step. In each cell density, velocity, pressure and burnt share are
 * straight lines, of van Leer's monotonized central slope
 *   d = the smallest of 2 (q_i - q_i-1), (q_i+1 - q_i-1)/2, 2 (q_i+1 - q_i),  0 where the outer two differ in sign;
 * their values at the cell's two edges move on by half the step as the equations in primitive form have it,
 *   rho_t = -u rho_x - rho (u_x + u F'/F)
 *   u_t   = -u u_x - p_x/rho - G
 *   p_t   = -u p_x - rho a^2 (u_x + u F'/F) + (gamma-1) rho (q + u G)
 *   Y_t   = -u Y_x
 * with a and gamma of the cell's own temperature and composition; F area, G = (4f/D) u|u|/2 from wall friction, q heat from the
 * wall per mass and time. What that brings to an end face is, for the wave that arrives there, its mean over the step.
 * Sources: van Leer, J. Comput. Phys. 23 (1977) 276 (slope); Toro 2009, section 14.4 (MUSCL-Hancock); both from memory.
 */

import { CLOCK, type Clock } from '../../march/clock.ts';
import { type DuctState, GHOSTS } from '../conservative/state.ts';

/** A cell whose edges would keep less than this share of its density or pressure is taken as uniform [-]. */
const LEAST_LEFT = 0.05;

/** Fills the two states at each face at mid-step, and the pressure of the cells there, `middle` [Pa]. */
export function predict(duct: DuctState, middle: Float64Array, clock: Clock): void {
  const half = 0.5 * clock[CLOCK.dt];
  const over = half / duct.dx;
  const { r, u, p, a, T, gamma, areaSlope, frictionOverD, heatOverD, wallTemperature, calm, cells } = duct;
  const { rLeft, uLeft, pLeft, rRight, uRight, pRight } = duct;
  for (let i = 0; i < cells; i++) {
    const k = i + GHOSTS;
    const rho = r[k];
    const vel = u[k];
    const pressure = p[k];
    const a2 = a[k] * a[k];
    const steep = calm[k] > 0 ? 0 : 1;
    const dr = steep * slope(rho - r[k - 1], r[k + 1] - rho);
    const du = steep * slope(vel - u[k - 1], u[k + 1] - vel);
    const dp = steep * slope(pressure - p[k - 1], p[k + 1] - pressure);
    const spreading = over * du + half * vel * areaSlope[i];
    const drag = half * frictionOverD[i] * Math.abs(vel) * vel;
    const heat = half * heatOverD[i] * (wallTemperature[i] - T[k]);
    const rMid = rho - over * vel * dr - rho * spreading;
    const uMid = vel - over * (vel * du + dp / rho) - drag;
    const pMid =
      pressure - over * vel * dp - rho * a2 * spreading + (gamma[k] - 1) * (heat + rho * vel * drag);
    const bold =
      rMid - 0.5 * Math.abs(dr) > LEAST_LEFT * rho && pMid - 0.5 * Math.abs(dp) > LEAST_LEFT * pressure;
    const share = bold ? 0.5 : 0;
    const rBase = bold ? rMid : rho;
    const uBase = bold ? uMid : vel;
    const pBase = bold ? pMid : pressure;
    middle[i] = pBase;
    rLeft[i + 1] = rBase + share * dr;
    uLeft[i + 1] = uBase + share * du;
    pLeft[i + 1] = pBase + share * dp;
    rRight[i] = rBase - share * dr;
    uRight[i] = uBase - share * du;
    pRight[i] = pBase - share * dp;
  }
  if (duct.mixed) predictBurnt(duct, over);
}

function predictBurnt(duct: DuctState, over: number): void {
  const { u, y, yLeft, yRight, cells } = duct;
  for (let i = 0; i < cells; i++) {
    const k = i + GHOSTS;
    const dy = slope(y[k] - y[k - 1], y[k + 1] - y[k]);
    const middle = y[k] - over * u[k] * dy;
    yLeft[i + 1] = middle + 0.5 * dy;
    yRight[i] = middle - 0.5 * dy;
  }
}

/** The slope over a cell, from the steps to its neighbours. */
function slope(before: number, after: number): number {
  if (before * after <= 0) return 0;
  const central = 0.5 * (before + after);
  const least = 2 * (Math.abs(before) < Math.abs(after) ? before : after);
  return Math.abs(central) < Math.abs(least) ? central : least;
}
