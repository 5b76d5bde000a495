// Stage 3 for one cell, all cases of ../../conservative/trace.ts: where the flow is supersonic all three waves go to one face.

import { Duct, GHOSTS } from "./layout";
import { leftEdge, limitOne, rightEdge } from "./limit";

@inline
function bend(mid: f64, l: f64, r: f64): f64 { return 6 * mid - 3 * (l + r); }

@inline
function thinned(c: f64): f64 { return 1 - (4.0 / 3.0) * c; }

@inline
function lastOf(right: f64, c: f64, d: f64, q6: f64): f64 { return right - c * (d - thinned(c) * q6); }

@inline
function firstOf(left: f64, c: f64, d: f64, q6: f64): f64 { return left + c * (d + thinned(c) * q6); }

export function traceSupersonic(d: Duct, i: i32): void {
  const k = i + GHOSTS;
  const rho = d.r[k], vel = d.u[k], pressure = d.p[k], sound = d.a[k];
  const flat = d.flatten[k];
  limitOne(d.r, k, flattened(d.rFace[i], rho, flat), flattened(d.rFace[i + 1], rho, flat));
  const rl = leftEdge, rr = rightEdge, rd = rr - rl, r6 = bend(rho, rl, rr);
  limitOne(d.u, k, flattened(d.uFace[i], vel, flat), flattened(d.uFace[i + 1], vel, flat));
  const ul = leftEdge, ur = rightEdge, ud = ur - ul, u6 = bend(vel, ul, ur);
  limitOne(d.p, k, flattened(d.pFace[i], pressure, flat), flattened(d.pFace[i + 1], pressure, flat));
  const pl = leftEdge, pr = rightEdge, pd = pr - pl, p6 = bend(pressure, pl, pr);

  const a2 = sound * sound;
  const dtdx = d.dt / d.dx;
  const s0 = vel * dtdx, sp = (vel + sound) * dtdx, sm = (vel - sound) * dtdx;

  const cp = sp > 0 ? 0.5 * sp : 0;
  let rOut = lastOf(rr, cp, rd, r6), uOut = lastOf(ur, cp, ud, u6), pOut = lastOf(pr, cp, pd, p6);
  if (s0 > 0) {
    let correction = rOut - lastOf(rr, 0.5 * s0, rd, r6) - (pOut - lastOf(pr, 0.5 * s0, pd, p6)) / a2;
    if (sm > 0) {
      const um = lastOf(ur, 0.5 * sm, ud, u6), pm = lastOf(pr, 0.5 * sm, pd, p6);
      const strength = 0.5 * ((pOut - pm) / a2 - (rho * (uOut - um)) / sound);
      correction += strength;
      uOut += (strength * sound) / rho;
      pOut -= strength * a2;
    }
    rOut -= correction;
  }

  const cn = sm < 0 ? -0.5 * sm : 0;
  let rIn = firstOf(rl, cn, rd, r6), uIn = firstOf(ul, cn, ud, u6), pIn = firstOf(pl, cn, pd, p6);
  if (s0 < 0) {
    let correction = rIn - firstOf(rl, -0.5 * s0, rd, r6) - (pIn - firstOf(pl, -0.5 * s0, pd, p6)) / a2;
    if (sp < 0) {
      const up = firstOf(ul, -0.5 * sp, ud, u6), pp = firstOf(pl, -0.5 * sp, pd, p6);
      const strength = 0.5 * ((pIn - pp) / a2 + (rho * (uIn - up)) / sound);
      correction += strength;
      uIn -= (strength * sound) / rho;
      pIn -= strength * a2;
    }
    rIn -= correction;
  }

  const half = 0.5 * d.dt;
  const expansion = -half * rho * vel * d.areaSlope[i];
  const drag = half * d.frictionOverD[i] * Math.abs(vel) * vel;
  const heat = half * d.heatOverD[i] * (d.wallTemperature[i] - d.T[k]);
  const dp = a2 * expansion + (d.gamma[k] - 1) * (heat + rho * vel * drag);
  d.rLeft[i + 1] = rOut + expansion;
  d.uLeft[i + 1] = uOut - drag;
  d.pLeft[i + 1] = pOut + dp;
  d.rRight[i] = rIn + expansion;
  d.uRight[i] = uIn - drag;
  d.pRight[i] = pIn + dp;
}

@inline
function flattened(edge: f64, here: f64, flat: f64): f64 { return edge + flat * (here - edge); }
