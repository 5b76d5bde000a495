/**
 * Stage 4: the two states that the characteristics bring to a face meet there. Where they differ, the characteristics of
 * one family cross and the face holds the solution of a Riemann problem. Each side's wave relates pressure and velocity by
 *   u* = u -+ (p*-p)/W,   W^2 = rho gamma p [1 + (gamma+1)/(2 gamma) (z - 1)],  z = p* : p   (shock; weak expansion)
 *   u* = u +- 2a/(gamma-1) [1 - z^((gamma-1)/2gamma)]                          (strong expansion)
 * Sources: Colella & Woodward 1984, section 3 (two-shock form); Toro, Riemann Solvers and Numerical Methods for Fluid
 * Dynamics, chapters 4 and 9 (pressure function, two-rarefaction guess).
 */

import { power } from '../../arithmetic/functions.ts';
import { unconverged } from '../../march/unconverged.ts';
import { type DuctState, GHOSTS } from './state.ts';

/** Below this pressure ratio an expansion is taken as isentropic, above it as the third-order equal two-shock form. */
const STRONG_EXPANSION = 0.7;
/** States closer than this meet in one acoustic step: the error is of third order in the difference. */
const CLOSE = 0.008;
const ROUNDS = 8;
/** Of the last step, in parts of the pressure: what is left is of second order. Tight, for the two-lane kernel is held against it. */
const TOLERANCE = 1e-9;

/** Fills the star states of the interior faces 1 .. cells-1. */
export function meet(duct: DuctState): void {
  const { rLeft, uLeft, pLeft, rRight, uRight, pRight, gamma, rStar, uStar, pStar, cells } = duct;
  for (let j = 1; j < cells; j++) {
    const k = j + GHOSTS;
    const gl = gamma[k - 1];
    const gr = gamma[k];
    if (!(rLeft[j] > 0 && pLeft[j] > 0)) fallBack(duct, j, k - 1, true);
    if (!(rRight[j] > 0 && pRight[j] > 0)) fallBack(duct, j, k, false);
    const rl = rLeft[j];
    const ul = uLeft[j];
    const pl = pLeft[j];
    const rr = rRight[j];
    const ur = uRight[j];
    const pr = pRight[j];
    const cl = Math.sqrt(gl * pl * rl);
    const cr = Math.sqrt(gr * pr * rr);
    const sum = cl + cr;
    const ps = (cr * pl + cl * pr + cl * cr * (ul - ur)) / sum;
    const us = (cl * ul + cr * ur + pl - pr) / sum;
    const least = pl < pr ? pl : pr;
    pStar[j] = ps;
    uStar[j] = us;
    rStar[j] = -1;
    if (Math.abs(ps - pl) > CLOSE * least || Math.abs(ps - pr) > CLOSE * least) meetStrongly(duct, j);
  }
  sampleFaces(duct);
  if (duct.mixed) {
    const { yLeft, yRight, yStar } = duct;
    for (let j = 1; j < cells; j++) yStar[j] = uStar[j] >= 0 ? yLeft[j] : yRight[j];
  }
}

/** A traced state that is not physical gives way to the cell's average. */
export function fallBack(duct: DuctState, j: number, k: number, left: boolean): void {
  (left ? duct.rLeft : duct.rRight)[j] = duct.r[k];
  (left ? duct.uLeft : duct.uRight)[j] = duct.u[k];
  (left ? duct.pLeft : duct.pRight)[j] = duct.p[k];
}

/** Velocity change across a wave to the pressure ps [m/s]. */
function waveVelocity(ps: number, p: number, g: number, c: number, r: number): number {
  const ratio = ps / p;
  if (ratio < STRONG_EXPANSION) {
    return ((2 * c) / (r * (g - 1))) * (power(ratio, (g - 1) / (2 * g)) - 1);
  }
  return (ps - p) / (c * Math.sqrt(1 + ((g + 1) / (2 * g)) * (ratio - 1)));
}

function waveSlope(ps: number, p: number, g: number, c: number): number {
  const ratio = ps / p;
  if (ratio < STRONG_EXPANSION) return power(ratio, -(g + 1) / (2 * g)) / c;
  const grow = (g + 1) / (2 * g);
  const s = 1 + grow * (ratio - 1);
  return (1 - (0.5 * grow * (ratio - 1)) / s) / (c * Math.sqrt(s));
}

/**
 * Pressure and velocity of face j where two strong waves meet, by Newton's method on the equality of velocities, from the
 * acoustic pressure. It reads and writes the duct's arrays: numbers handed over one by one would be allocated.
 */
function meetStrongly(duct: DuctState, j: number): void {
  const k = j + GHOSTS;
  const rl = duct.rLeft[j];
  const ul = duct.uLeft[j];
  const pl = duct.pLeft[j];
  const gl = duct.gamma[k - 1];
  const rr = duct.rRight[j];
  const ur = duct.uRight[j];
  const pr = duct.pRight[j];
  const gr = duct.gamma[k];
  const cl = Math.sqrt(gl * pl * rl);
  const cr = Math.sqrt(gr * pr * rr);
  const least = pl < pr ? pl : pr;
  let ps = duct.pStar[j];
  if (!(ps > 0.3 * least)) ps = twoRarefactions(rl, ul, pl, cl, rr, ur, pr, cr, 0.5 * (gl + gr));
  if (ps > 1e-9 * least) {
    let round = 0;
    for (; round < ROUNDS; round++) {
      const miss = waveVelocity(ps, pl, gl, cl, rl) + waveVelocity(ps, pr, gr, cr, rr) + ur - ul;
      const dp = -miss / (waveSlope(ps, pl, gl, cl) + waveSlope(ps, pr, gr, cr));
      const next = ps + dp;
      ps = next > 0.1 * ps ? next : 0.1 * ps;
      if (Math.abs(dp) < TOLERANCE * ps) break;
    }
    if (round === ROUNDS) unconverged[0]++;
  } else ps = 1e-9 * least;
  duct.pStar[j] = ps;
  duct.uStar[j] = 0.5 * (ul - waveVelocity(ps, pl, gl, cl, rl) + ur + waveVelocity(ps, pr, gr, cr, rr));
}

function twoRarefactions(
  rl: number,
  ul: number,
  pl: number,
  cl: number,
  rr: number,
  ur: number,
  pr: number,
  cr: number,
  g: number,
): number {
  const z = (g - 1) / (2 * g);
  const al = cl / rl;
  const ar = cr / rr;
  const top = al + ar - 0.5 * (g - 1) * (ur - ul);
  return top > 0 ? power(top / (al / power(pl, z) + ar / power(pr, z)), 1 / z) : 0;
}

/** Density, velocity and pressure on the face itself: between the waves, inside an expansion, or beyond a wave. */
function sampleFaces(duct: DuctState): void {
  const { rLeft, uLeft, pLeft, rRight, uRight, pRight, gamma, rStar, uStar, pStar, cells } = duct;
  for (let j = 1; j < cells; j++) {
    const k = j + GHOSTS;
    const us = uStar[j];
    const ps = pStar[j];
    const left = us >= 0;
    const r = left ? rLeft[j] : rRight[j];
    const p = left ? pLeft[j] : pRight[j];
    const u = left ? uLeft[j] : -uRight[j];
    const g = left ? gamma[k - 1] : gamma[k];
    const v = left ? us : -us;
    const ratio = ps / p;
    const grow = 1 + ((g + 1) / (2 * g)) * (ratio - 1);
    // rho* = rho / (1 - rho (p*-p)/W^2), W^2 = gamma p rho grow
    const star = ratio < STRONG_EXPANSION ? r * power(ratio, 1 / g) : r / (1 - (ratio - 1) / (g * grow));
    if (u * u * r < 0.64 * g * p && v * v * star < 0.64 * g * ps) {
      // Well subsonic on both sides of the wave: the face lies between the waves.
      rStar[j] = star;
      continue;
    }
    sampleTransonic(duct, j, r, p, u, g, v, star, ps, left);
  }
}

function sampleTransonic(
  duct: DuctState,
  j: number,
  r: number,
  p: number,
  u: number,
  g: number,
  v: number,
  star: number,
  ps: number,
  left: boolean,
): void {
  let weight = 1;
  if (ps > p) {
    const speed = u - Math.sqrt((g * p * (1 + ((g + 1) / (2 * g)) * (ps / p - 1))) / r);
    weight = speed >= 0 ? 0 : 1;
  } else {
    const head = u - Math.sqrt((g * p) / r);
    const tail = v - Math.sqrt((g * ps) / star);
    if (head >= 0) weight = 0;
    else if (tail > 0) weight = -head / (tail - head);
  }
  const velocity = u + weight * (v - u);
  duct.rStar[j] = r + weight * (star - r);
  duct.uStar[j] = left ? velocity : -velocity;
  duct.pStar[j] = p + weight * (ps - p);
}
