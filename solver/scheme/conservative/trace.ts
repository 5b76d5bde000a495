/**
 * Stage 3, the method of characteristics: the lines dx/dt = u-a, u, u+a that reach each face by the end of the step are
 * followed back into the cell, and each wave's own variable is averaged over its domain of dependence:
 *   right-running  dp + rho a du,   left-running  dp - rho a du,   path line  dp - a^2 d(rho).
 * The state a cell sends to its right face holds the average over the domain of u+a, corrected for the slower waves that
 * also arrive there; likewise to its left face with u-a. Over half the step the compatibility relations add
 *   d(rho)/dt = -rho u F'/F,   du/dt = -G,   dp/dt = -rho a^2 u F'/F + (gamma-1) rho (q + u G),
 * F'/F from the area, G = (4f/D) u|u|/2 from wall friction, q the heat from the wall per unit mass and time.
 * Source: Colella & Woodward 1984, section 3; compatibility relations as in Benson 1982, chapter 2 (from memory; derived).
 */

import { CLOCK, type Clock } from '../../march/clock.ts';
import { edges, limit } from './limit.ts';
import { type DuctState, GHOSTS } from './state.ts';

/** Fills the traced states at all faces of a duct for a step. */
export function trace(duct: DuctState, clock: Clock): void {
  traceAcoustic(duct, clock);
  addSources(duct, clock);
  if (duct.mixed) traceBurnt(duct, clock);
}

function traceAcoustic(duct: DuctState, clock: Clock): void {
  const dtdx = clock[CLOCK.dt] / duct.dx;
  const { r, u, p, a, rFace, uFace, pFace, flatten, cells } = duct;
  const { rLeft, uLeft, pLeft, rRight, uRight, pRight } = duct;
  for (let i = 0; i < cells; i++) {
    const k = i + GHOSTS;
    const rho = r[k];
    const vel = u[k];
    const pressure = p[k];
    const sound = a[k];
    let rl = rFace[i];
    let rr = rFace[i + 1];
    let ul = uFace[i];
    let ur = uFace[i + 1];
    let pl = pFace[i];
    let pr = pFace[i + 1];
    const flat = flatten[k];
    if (flat > 0) {
      rl += flat * (rho - rl);
      rr += flat * (rho - rr);
      ul += flat * (vel - ul);
      ur += flat * (vel - ur);
      pl += flat * (pressure - pl);
      pr += flat * (pressure - pr);
    }
    let rd = rr - rl;
    let r6 = 6 * rho - 3 * (rl + rr);
    // A parabola that turns within its cell goes to the limiter.
    if (r6 * r6 > rd * rd) {
      edges[0] = rl;
      edges[1] = rr;
      limit(r, k);
      rl = edges[0];
      rr = edges[1];
      rd = rr - rl;
      r6 = 6 * rho - 3 * (rl + rr);
    }
    let ud = ur - ul;
    let u6 = 6 * vel - 3 * (ul + ur);
    if (u6 * u6 > ud * ud) {
      edges[0] = ul;
      edges[1] = ur;
      limit(u, k);
      ul = edges[0];
      ur = edges[1];
      ud = ur - ul;
      u6 = 6 * vel - 3 * (ul + ur);
    }
    let pd = pr - pl;
    let p6 = 6 * pressure - 3 * (pl + pr);
    if (p6 * p6 > pd * pd) {
      edges[0] = pl;
      edges[1] = pr;
      limit(p, k);
      pl = edges[0];
      pr = edges[1];
      pd = pr - pl;
      p6 = 6 * pressure - 3 * (pl + pr);
    }

    const a2 = sound * sound;
    const s0 = vel * dtdx;
    const sp = (vel + sound) * dtdx;
    const sm = (vel - sound) * dtdx;

    // To the right face: the average over the domain of u+a, then the slower waves.
    const cp = sp > 0 ? 0.5 * sp : 0;
    const qp = 1 - (4 / 3) * cp;
    let rOut = rr - cp * (rd - qp * r6);
    let uOut = ur - cp * (ud - qp * u6);
    let pOut = pr - cp * (pd - qp * p6);
    if (s0 > 0) {
      const c0 = 0.5 * s0;
      const q0 = 1 - (4 / 3) * c0;
      const r0 = rr - c0 * (rd - q0 * r6);
      const p0 = pr - c0 * (pd - q0 * p6);
      let correction = rOut - r0 - (pOut - p0) / a2;
      if (sm > 0) {
        const cm = 0.5 * sm;
        const qm = 1 - (4 / 3) * cm;
        const um = ur - cm * (ud - qm * u6);
        const pm = pr - cm * (pd - qm * p6);
        const strength = 0.5 * ((pOut - pm) / a2 - (rho * (uOut - um)) / sound);
        correction += strength;
        uOut += (strength * sound) / rho;
        pOut -= strength * a2;
      }
      rOut -= correction;
    }
    rLeft[i + 1] = rOut;
    uLeft[i + 1] = uOut;
    pLeft[i + 1] = pOut;

    // To the left face: the average over the domain of u-a, then the slower waves.
    const cn = sm < 0 ? -0.5 * sm : 0;
    const qn = 1 - (4 / 3) * cn;
    rOut = rl + cn * (rd + qn * r6);
    uOut = ul + cn * (ud + qn * u6);
    pOut = pl + cn * (pd + qn * p6);
    if (s0 < 0) {
      const c0 = -0.5 * s0;
      const q0 = 1 - (4 / 3) * c0;
      const r0 = rl + c0 * (rd + q0 * r6);
      const p0 = pl + c0 * (pd + q0 * p6);
      let correction = rOut - r0 - (pOut - p0) / a2;
      if (sp < 0) {
        const cr = -0.5 * sp;
        const qr = 1 - (4 / 3) * cr;
        const um = ul + cr * (ud + qr * u6);
        const pm = pl + cr * (pd + qr * p6);
        const strength = 0.5 * ((pOut - pm) / a2 + (rho * (uOut - um)) / sound);
        correction += strength;
        uOut -= (strength * sound) / rho;
        pOut -= strength * a2;
      }
      rOut -= correction;
    }
    rRight[i] = rOut;
    uRight[i] = uOut;
    pRight[i] = pOut;
  }
}

function addSources(duct: DuctState, clock: Clock): void {
  const half = 0.5 * clock[CLOCK.dt];
  const { r, u, a, T, gamma, areaSlope, frictionOverD, heatOverD, wallTemperature, cells } = duct;
  const { rLeft, uLeft, pLeft, rRight, uRight, pRight } = duct;
  for (let i = 0; i < cells; i++) {
    const k = i + GHOSTS;
    const rho = r[k];
    const vel = u[k];
    const sound = a[k];
    const expansion = -half * rho * vel * areaSlope[i];
    const drag = half * frictionOverD[i] * Math.abs(vel) * vel;
    const heat = half * heatOverD[i] * (wallTemperature[i] - T[k]);
    const dp = sound * sound * expansion + (gamma[k] - 1) * (heat + rho * vel * drag);
    rLeft[i + 1] += expansion;
    uLeft[i + 1] -= drag;
    pLeft[i + 1] += dp;
    rRight[i] += expansion;
    uRight[i] -= drag;
    pRight[i] += dp;
  }
}

function traceBurnt(duct: DuctState, clock: Clock): void {
  const dtdx = clock[CLOCK.dt] / duct.dx;
  const { u, y, yFace, yLeft, yRight, cells } = duct;
  for (let i = 0; i < cells; i++) {
    const k = i + GHOSTS;
    const value = y[k];
    let left = yFace[i];
    let right = yFace[i + 1];
    const d = right - left;
    const c6 = 6 * value - 3 * (left + right);
    if ((right - value) * (value - left) <= 0) {
      left = value;
      right = value;
    } else if (d * c6 > d * d) left = 3 * value - 2 * right;
    else if (-d * d > d * c6) right = 3 * value - 2 * left;
    const slope = right - left;
    const curve = 6 * value - 3 * (left + right);
    const s = u[k] * dtdx;
    if (s > 0) {
      yLeft[i + 1] = right - 0.5 * s * (slope - (1 - (2 / 3) * s) * curve);
      yRight[i] = left;
    } else {
      yLeft[i + 1] = right;
      yRight[i] = left - 0.5 * s * (slope + (1 + (2 / 3) * s) * curve);
    }
  }
}
