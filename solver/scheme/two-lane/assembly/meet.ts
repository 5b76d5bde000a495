// Stages 4 and 5 for the interior faces, as ../../conservative/meet.ts and `fluxes` of advance.ts: states that differ little
// meet in one acoustic step and the face lies between the waves; the rest goes to mild-waves.ts, and what is strong to strong-waves.ts,
// face by face.

import {
  add, all, and, any, at, at1, at2, both, div, firsts, ge, gt, holds0, holds1, least, lt, mul, or, pick, put, root, seconds, size,
  sub,
} from "./lanes";
import { Duct, GHOSTS } from "./layout";
import { meetMildly } from "./mild-waves";
import { meetStrongly, sampleFace, STRONG_EXPANSION } from "./strong-waves";
import { address0, address1, blended0, blended1, rowsOf, slopes, startOf } from "./table";

const CLOSE: f64 = 0.008;
/** Square of the Mach number below which the face lies between the waves. */
const WELL_SUBSONIC: f64 = 0.64;

/** A traced state that is not physical gives way to the cell's average. */
export function fallBack(d: Duct, j: i32, k: i32, left: bool): void {
  (left ? d.rLeft : d.rRight)[j] = d.r[k];
  (left ? d.uLeft : d.uRight)[j] = d.u[k];
  (left ? d.pLeft : d.pRight)[j] = d.p[k];
}

function fallBackAt(d: Duct, j: i32): void {
  if (!(d.rLeft[j] > 0 && d.pLeft[j] > 0)) fallBack(d, j, j + GHOSTS - 1, true);
  if (!(d.rRight[j] > 0 && d.pRight[j] > 0)) fallBack(d, j, j + GHOSTS, false);
}

/** Fills the star states and the fluxes of the faces 1 .. cells-1. */
export function meet(d: Duct): void {
  const n = d.cells, gamma = d.gamma;
  const rLeft = d.rLeft, uLeft = d.uLeft, pLeft = d.pLeft, rRight = d.rRight, uRight = d.uRight, pRight = d.pRight;
  const rStar = d.rStar, uStar = d.uStar, pStar = d.pStar;
  const perfect = d.gas.perfect != 0;
  const cpOverR = both(1 + d.gas.perfectCv / d.gas.gasConstantFresh);
  d.unconverged = 0;
  for (let f = 1; f < n; f += 2) {
    // The last odd face is done together with the one before it, whose rounds were counted already.
    const again = f == n - 1;
    const j = again ? f - 1 : f;
    const b = <usize>j << 3;
    let rl = at(rLeft, b), pl = at(pLeft, b), rr = at(rRight, b), pr = at(pRight, b);
    if (!all(and(and(gt(rl, both(0)), gt(pl, both(0))), and(gt(rr, both(0)), gt(pr, both(0)))))) {
      fallBackAt(d, j);
      fallBackAt(d, j + 1);
      rl = at(rLeft, b);
      pl = at(pLeft, b);
      rr = at(rRight, b);
      pr = at(pRight, b);
    }
    const ul = at(uLeft, b), ur = at(uRight, b);
    const gl = at1(gamma, b), gr = at2(gamma, b);
    const gpl = mul(gl, pl), gpr = mul(gr, pr);
    const cl = root(mul(gpl, rl)), cr = root(mul(gpr, rr));
    const overSum = div(both(1), add(cl, cr));
    let ps = mul(add(add(mul(cr, pl), mul(cl, pr)), mul(mul(cl, cr), sub(ul, ur))), overSum);
    let us = mul(sub(add(add(mul(cl, ul), mul(cr, ur)), pl), pr), overSum);
    const close = mul(both(CLOSE), least(pl, pr));
    const far = or(gt(size(sub(ps, pl)), close), gt(size(sub(ps, pr)), close));
    if (any(far)) {
      put(pStar, b, ps);
      put(uStar, b, us);
      const strong = meetMildly(d, b, far, pl, pr, ul, ur, gl, gr, cl, cr);
      if (any(strong)) {
        if (holds0(strong) && !meetStrongly(d, j) && !again) d.unconverged++;
        if (holds1(strong) && !meetStrongly(d, j + 1)) d.unconverged++;
      }
      ps = at(pStar, b);
      us = at(uStar, b);
    }

    // rho* = rho (gp + h d)/(gp + h d - d), d = p* - p, h = (gamma + 1)/2: the side that the contact comes from.
    const left = ge(us, both(0));
    const r = pick(left, rl, rr), p = pick(left, pl, pr), u = pick(left, ul, ur), g = pick(left, gl, gr);
    const gp = pick(left, gpl, gpr);
    const rise = sub(ps, p);
    const top = add(gp, mul(mul(both(0.5), add(g, both(1))), rise));
    let rs = div(mul(r, top), sub(top, rise));
    const before = lt(mul(mul(u, u), r), mul(both(WELL_SUBSONIC), gp));
    const behind = lt(mul(mul(us, us), rs), mul(both(WELL_SUBSONIC), mul(g, ps)));
    const plain = and(and(before, behind), ge(ps, mul(both(STRONG_EXPANSION), p)));
    if (!all(plain)) {
      put(pStar, b, ps);
      put(uStar, b, us);
      put(rStar, b, rs);
      if (!holds0(plain)) sampleFace(d, j);
      if (!holds1(plain)) sampleFace(d, j + 1);
      ps = at(pStar, b);
      us = at(uStar, b);
      rs = at(rStar, b);
    }
    put(rStar, b, rs);
    put(uStar, b, us);
    put(pStar, b, ps);

    const flow = mul(mul(rs, us), at(d.faceArea, b));
    put(d.massFlux, b, flow);
    put(d.momentumFlux, b, mul(flow, us));
    const kinetic = mul(both(0.5), mul(us, us));
    if (perfect) put(d.energyFlux, b, mul(flow, add(div(mul(cpOverR, ps), rs), kinetic)));
    else fluxOfBlend(d, b, ps, rs, us, flow, kinetic);
  }
}

@inline
function fluxOfBlend(d: Duct, b: usize, ps: v128, rs: v128, us: v128, flow: v128, kinetic: v128): void {
  const table = d.gas.table;
  const share = d.mixed ? pick(ge(us, both(0)), at(d.yLeft, b), at(d.yRight, b)) : both(0);
  const fresh = d.gas.gasConstantFresh;
  const RT = div(ps, rs);
  const T = div(RT, add(both(fresh), mul(both(d.gas.gasConstantBurnt - fresh), share)));
  const rows = rowsOf(T);
  const row0 = address0(table, rows), row1 = address1(table, rows);
  const e0 = blended0(row0, share), e1 = blended1(row1, share);
  const s0 = slopes(row0), s1 = slopes(row1);
  const dT = sub(T, startOf(rows));
  const slope = add(firsts(s0, s1), mul(share, seconds(s0, s1)));
  const energy = add(firsts(e0, e1), mul(dT, add(seconds(e0, e1), mul(mul(both(0.5), dT), slope))));
  put(d.yStar, b, share);
  put(d.energyFlux, b, mul(flow, add(add(energy, RT), kinetic)));
  put(d.burntFlux, b, mul(flow, share));
}
