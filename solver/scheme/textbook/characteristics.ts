/**
 * A step of the textbook method at the interior nodes. Through node j at the end of the step run
 *   dx/dt = u + a:   c dX + du = [ -a u F'/F + (gamma-1)(q + uG)/a - G ] dt
 *   dx/dt = u - a:   c dX - du = [ -a u F'/F + (gamma-1)(q + uG)/a + G ] dt
 *   dx/dt = u:       2 d ln A = [ ((gamma-1)/gamma)/k - 2 ] d ln X + (q + uG)/(c_p T) dt,   dY = 0
 * Each is followed back to its foot on the line of the step's start, where the state is interpolated. Speeds, c and the
 * sources are means of foot and node: a first pass with speeds interpolated linearly, a second with those it found.
 * Source: Hartree 1958; Benson 1982, chapter 2 (from memory); relations derived here from the balances of mass, momentum and energy.
 */

import { atFeet, bends } from './interpolation.ts';
import { blendGamma } from './refresh.ts';
import { nextRates, sources } from './sources.ts';
import type { Feet, TextbookState } from './textbook-state.ts';

/** Fills the interior nodes of `next`, dt [s] on. */
export function march(duct: TextbookState, dt: number): void {
  const { now, next, plus, minus } = duct;
  const r = dt / duct.dx;
  firstFeet(duct, r);
  next.X.set(now.X);
  next.u.set(now.u);
  for (let pass = 0; pass < 2; pass++) {
    if (pass > 0) betterFeet(duct, r);
    findWaves(duct, plus);
    findWaves(duct, minus);
    findPath(duct);
    if (duct.lossy) heatPath(duct, dt);
    if (duct.tapered || duct.lossy) sources(duct, dt);
    close(duct);
  }
  carry(duct, dt);
}

/** Fills the second differences that the interpolation needs. */
export function prepare(duct: TextbookState): void {
  const { now, cells } = duct;
  bends(now.X, duct.bendX, cells);
  bends(now.u, duct.bendU, cells);
  bends(now.A, duct.bendA, cells);
  if (duct.mixed) bends(now.y, duct.bendY, cells);
}

/** Where a line of speed `here` at its node starts, if the speed changes linearly to that of the neighbour upstream. */
export function firstFoot(r: number, before: number, here: number, after: number): number {
  const nu = here >= 0 ? (r * here) / (1 + r * (here - before)) : (r * here) / (1 + r * (after - here));
  return nu > 1 ? 1 : nu < -1 ? -1 : nu;
}

function firstFeet(duct: TextbookState, r: number): void {
  const { w, cells } = duct;
  const { X, u } = duct.now;
  const plus = duct.plus.nu;
  const minus = duct.minus.nu;
  const path = duct.path.nu;
  let u0 = u[0];
  let a0 = w[0] * X[0];
  let u1 = u[1];
  let a1 = w[1] * X[1];
  for (let j = 1; j < cells; j++) {
    const u2 = u[j + 1];
    const a2 = w[j + 1] * X[j + 1];
    plus[j] = firstFoot(r, u0 + a0, u1 + a1, u2 + a2);
    minus[j] = firstFoot(r, u0 - a0, u1 - a1, u2 - a2);
    path[j] = firstFoot(r, u0, u1, u2);
    u0 = u1;
    a0 = a1;
    u1 = u2;
    a1 = a2;
  }
}

/** Feet from the mean of the speeds at foot and node, as the first pass found them. */
function betterFeet(duct: TextbookState, r: number): void {
  const { plus, minus, path, cells } = duct;
  const { X, u } = duct.next;
  const half = 0.5 * r;
  for (let j = 1; j < cells; j++) {
    const a = path.a[j] * X[j];
    const p = half * (plus.u[j] + plus.a[j] + u[j] + a);
    const m = half * (minus.u[j] - minus.a[j] + u[j] - a);
    const s = half * (path.u[j] + u[j]);
    plus.nu[j] = p > 1 ? 1 : p < -1 ? -1 : p;
    minus.nu[j] = m > 1 ? 1 : m < -1 ? -1 : m;
    path.nu[j] = s > 1 ? 1 : s < -1 ? -1 : s;
  }
}

/** State at the feet of one family of waves. */
function findWaves(duct: TextbookState, feet: Feet): void {
  const { c, w, cells } = duct;
  const { nu, X, c: footC, a: footA } = feet;
  atFeet(duct.now.X, duct.bendX, nu, X, cells);
  atFeet(duct.now.u, duct.bendU, nu, feet.u, cells);
  for (let j = 1; j < cells; j++) {
    const v = nu[j];
    const i = v >= 0 ? j - 1 : j;
    const t = v >= 0 ? 1 - v : -v;
    footC[j] = c[i] + t * (c[i + 1] - c[i]);
    footA[j] = (w[i] + t * (w[i + 1] - w[i])) * X[j];
  }
}

/**
 * What the path line brings: c and w of its gas (`a` holds w here), and its velocity at the foot. In a blend they are
 * taken at the pressure of the node's last estimate.
 */
function findPath(duct: TextbookState): void {
  const { c, w, cells, path } = duct;
  const { u } = duct.now;
  const { nu, u: footU, c: footC, a: footW } = path;
  for (let j = 1; j < cells; j++) {
    const v = nu[j];
    const i = v >= 0 ? j - 1 : j;
    const t = v >= 0 ? 1 - v : -v;
    footU[j] = u[i] + t * (u[i + 1] - u[i]);
    footC[j] = c[i] + t * (c[i + 1] - c[i]);
    footW[j] = w[i] + t * (w[i + 1] - w[i]);
  }
  if (!duct.gas.perfect) pathOfBlend(duct);
}

function pathOfBlend(duct: TextbookState): void {
  const { gas, k, cells, path, trialY, trialT, trialGamma } = duct;
  const { A, y } = duct.now;
  const { X } = duct.next;
  const { a: footW, c: footC } = path;
  const Rf = gas.gasConstantFresh;
  const dR = gas.gasConstantBurnt - Rf;
  for (let j = 1; j < cells; j++) {
    const v = path.nu[j];
    const i = v >= 0 ? j - 1 : j;
    const t = v >= 0 ? 1 - v : -v;
    const level = A[i] + t * (A[i + 1] - A[i]);
    const burnt = y[i] + t * (y[i + 1] - y[i]);
    trialY[j] = burnt;
    const root = X[j] * level;
    trialT[j] = (root * root) / (Rf + dR * burnt);
    footW[j] = level;
  }
  blendGamma(gas, trialT, trialY, trialGamma, 1, cells);
  for (let j = 1; j < cells; j++) {
    const over = Math.sqrt(trialGamma[j]) * footW[j];
    footW[j] = over;
    footC[j] = over / (trialGamma[j] * k);
  }
}

/** A of a path line's gas after the wall's heat on the way, into `heated`; c and w grow with it. */
function heatPath(duct: TextbookState, dt: number): void {
  const { warm, T, gamma, gas, cells, path } = duct;
  const { A, y } = duct.now;
  for (let j = 1; j < cells; j++) {
    const v = path.nu[j];
    const i = v >= 0 ? j - 1 : j;
    const t = v >= 0 ? 1 - v : -v;
    const g = gamma[j];
    const cp = (g * gas.gasConstant(y[j])) / (g - 1);
    const rate = (warm[i] + t * (warm[i + 1] - warm[i])) / (cp * (T[i] + t * (T[i + 1] - T[i])));
    const growth = 1 + 0.5 * dt * rate;
    duct.heated[j] = (A[i] + t * (A[i + 1] - A[i])) * growth;
    path.c[j] *= growth;
    path.a[j] *= growth;
  }
}

/** Pressure and velocity where the two waves meet at the node. */
function close(duct: TextbookState): void {
  const { plus, minus, path, cells } = duct;
  const { X, u } = duct.next;
  for (let j = 1; j < cells; j++) {
    const cp = 0.5 * (plus.c[j] + path.c[j]);
    const cm = 0.5 * (minus.c[j] + path.c[j]);
    const right = cp * plus.X[j] + plus.u[j] + plus.gain[j];
    const left = cm * minus.X[j] - minus.u[j] + minus.gain[j];
    const x = (right + left) / (cp + cm);
    X[j] = x;
    u[j] = right - cp * x;
  }
}

/** Carries A and the burnt fraction along the path lines. */
function carry(duct: TextbookState, dt: number): void {
  const { path, cells, now, next } = duct;
  atFeet(now.A, duct.bendA, path.nu, next.A, cells);
  if (duct.mixed) atFeet(now.y, duct.bendY, path.nu, next.y, cells);
  if (!duct.gas.perfect) followPressure(duct);
  if (duct.lossy) warmUp(duct, dt);
}

/** exp(x) to third order. */
export function grown(x: number): number {
  return (1 + 0.5 * x) / (1 - 0.5 * x);
}

/** The change of A of a blend with pressure. */
function followPressure(duct: TextbookState): void {
  const { k, bendX, gamma, gas, cells, path, trialT, trialGamma } = duct;
  const { X: footX, nu } = path;
  const { X, y, A } = duct.next;
  const Rf = gas.gasConstantFresh;
  const dR = gas.gasConstantBurnt - Rf;
  atFeet(duct.now.X, bendX, nu, footX, cells);
  for (let j = 1; j < cells; j++) {
    const root = X[j] * A[j];
    trialT[j] = (root * root) / (Rf + dR * y[j]);
  }
  blendGamma(gas, trialT, y, trialGamma, 1, cells);
  for (let j = 1; j < cells; j++) {
    const v = nu[j];
    const i = v >= 0 ? j - 1 : j;
    const t = v >= 0 ? 1 - v : -v;
    const g = 0.5 * (gamma[i] + t * (gamma[i + 1] - gamma[i]) + trialGamma[j]);
    A[j] *= grown((((g - 1) / (g * k) - 2) * (X[j] - footX[j])) / (X[j] + footX[j]));
  }
}

/** The change of A by wall heat and friction. */
function warmUp(duct: TextbookState, dt: number): void {
  const { warm, warmNext, T, gamma, gas, cells, path } = duct;
  const next = duct.next;
  nextRates(duct);
  for (let j = 1; j < cells; j++) {
    const v = path.nu[j];
    const i = v >= 0 ? j - 1 : j;
    const t = v >= 0 ? 1 - v : -v;
    const R = gas.gasConstant(next.y[j]);
    const g = gamma[j];
    const cp = (g * R) / (g - 1);
    const foot = (warm[i] + t * (warm[i + 1] - warm[i])) / (T[i] + t * (T[i + 1] - T[i]));
    const root = duct.heated[j] * next.X[j];
    const node = (warmNext[j] * R) / (root * root);
    next.A[j] *= grown((0.25 * dt * (foot + node)) / cp);
  }
}
