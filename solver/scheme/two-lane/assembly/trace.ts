// Stage 3, as ../../conservative/trace.ts, with the flattening at shocks of faces.ts and the sources on the way. Here the flow is
// subsonic, so that of the slower waves only the path line reaches a face, and it from one side; a supersonic cell is done
// again by itself (supersonic.ts).

import {
  add, and, any, at, at1, at2, at3, at4, both, div, gt, holds0, holds1, le, least, lt, most, mul, neg, pick, put, put1, put2,
  size, sub, unless,
} from "./lanes";
import { Duct } from "./layout";
import { leftEdges, limitPair, rightEdges } from "./limit";
import { traceSupersonic } from "./supersonic";

@inline
function bend(mid: v128, l: v128, r: v128): v128 { return sub(mul(both(6), mid), mul(both(3), add(l, r))); }

/** 1 - 4c/3 of the averages over a domain of dependence 2c cells wide. */
@inline
function thinned(c: v128): v128 { return sub(both(1), mul(both(4.0 / 3.0), c)); }

/** Average of a parabola over its last 2c cells; and over its first. */
@inline
function lastOf(right: v128, c: v128, q: v128, d: v128, q6: v128): v128 { return sub(right, mul(c, sub(d, mul(q, q6)))); }

@inline
function firstOf(left: v128, c: v128, q: v128, d: v128, q6: v128): v128 { return add(left, mul(c, add(d, mul(q, q6)))); }

/** The parabola turns within its cell. */
@inline
function turns(q6: v128, d: v128): bool { return any(gt(mul(q6, q6), mul(d, d))); }

export function trace(d: Duct): void {
  const n = d.cells, dtdx = both(d.dt / d.dx), halfDt = both(0.5 * d.dt), calmed = d.calmed;
  const r = d.r, u = d.u, p = d.p, a = d.a, T = d.T, gamma = d.gamma, flatten = d.flatten;
  const rFace = d.rFace, uFace = d.uFace, pFace = d.pFace;
  const areaSlope = d.areaSlope, friction = d.frictionOverD, heatOverD = d.heatOverD, wall = d.wallTemperature;
  const rLeft = d.rLeft, uLeft = d.uLeft, pLeft = d.pLeft;
  const rRight = d.rRight, uRight = d.uRight, pRight = d.pRight;
  for (let j = 0; j < n; j += 2) {
    const i = j < n - 1 ? j : n - 2;
    const b = <usize>i << 3;
    const rho = at2(r, b), vel = at2(u, b), pressure = at2(p, b), sound = at2(a, b);
    let rl = at(rFace, b), rr = at1(rFace, b);
    let ul = at(uFace, b), ur = at1(uFace, b);
    let pl = at(pFace, b), pr = at1(pFace, b);

    const back = at1(p, b), front = at3(p, b);
    const jump = size(sub(front, back));
    const shock = and(gt(jump, mul(both(0.33), least(front, back))), gt(at1(u, b), at3(u, b)));
    let flat = both(0);
    if (any(shock) || calmed) {
      const wide = size(sub(at4(p, b), at(p, b)));
      const steepness = pick(gt(wide, both(0)), div(jump, wide), both(1));
      flat = and(shock, least(most(mul(both(10), sub(steepness, both(0.75))), both(0)), both(1)));
      if (calmed) flat = pick(gt(at2(d.calm, b), both(0)), both(1), flat);
      rl = add(rl, mul(flat, sub(rho, rl)));
      rr = add(rr, mul(flat, sub(rho, rr)));
      ul = add(ul, mul(flat, sub(vel, ul)));
      ur = add(ur, mul(flat, sub(vel, ur)));
      pl = add(pl, mul(flat, sub(pressure, pl)));
      pr = add(pr, mul(flat, sub(pressure, pr)));
    }
    put2(flatten, b, flat);

    let rd = sub(rr, rl), r6 = bend(rho, rl, rr);
    if (turns(r6, rd)) {
      limitPair(r, b, rl, rr);
      rl = leftEdges;
      rr = rightEdges;
      rd = sub(rr, rl);
      r6 = bend(rho, rl, rr);
    }
    let ud = sub(ur, ul), u6 = bend(vel, ul, ur);
    if (turns(u6, ud)) {
      limitPair(u, b, ul, ur);
      ul = leftEdges;
      ur = rightEdges;
      ud = sub(ur, ul);
      u6 = bend(vel, ul, ur);
    }
    let pd = sub(pr, pl), p6 = bend(pressure, pl, pr);
    if (turns(p6, pd)) {
      limitPair(p, b, pl, pr);
      pl = leftEdges;
      pr = rightEdges;
      pd = sub(pr, pl);
      p6 = bend(pressure, pl, pr);
    }

    const a2 = mul(sound, sound), overA2 = div(both(1), a2);
    const s0 = mul(vel, dtdx), sp = mul(add(vel, sound), dtdx), sm = mul(sub(vel, sound), dtdx);
    const c0 = mul(both(0.5), size(s0)), q0 = thinned(c0);

    // To the right face by u+a, and by the path line where it goes there.
    const cp = mul(both(0.5), most(sp, both(0))), qp = thinned(cp);
    const uOut = lastOf(ur, cp, qp, ud, u6), pOut = lastOf(pr, cp, qp, pd, p6);
    let rOut = lastOf(rr, cp, qp, rd, r6);
    const r0 = lastOf(rr, c0, q0, rd, r6), p0 = lastOf(pr, c0, q0, pd, p6);
    rOut = sub(rOut, and(gt(s0, both(0)), sub(sub(rOut, r0), mul(sub(pOut, p0), overA2))));

    // To the left face by u-a.
    const cn = mul(both(0.5), most(neg(sm), both(0))), qn = thinned(cn);
    const uIn = firstOf(ul, cn, qn, ud, u6), pIn = firstOf(pl, cn, qn, pd, p6);
    let rIn = firstOf(rl, cn, qn, rd, r6);
    const r1 = firstOf(rl, c0, q0, rd, r6), p1 = firstOf(pl, c0, q0, pd, p6);
    rIn = sub(rIn, and(lt(s0, both(0)), sub(sub(rIn, r1), mul(sub(pIn, p1), overA2))));

    // Area, friction and heat along the lines.
    const flux = mul(rho, vel);
    const expansion = neg(mul(halfDt, mul(flux, at(areaSlope, b))));
    const drag = mul(mul(halfDt, at(friction, b)), mul(size(vel), vel));
    const heat = mul(mul(halfDt, at(heatOverD, b)), sub(at(wall, b), at2(T, b)));
    const dp = add(mul(a2, expansion), mul(sub(at2(gamma, b), both(1)), add(heat, mul(flux, drag))));
    put1(rLeft, b, add(rOut, expansion));
    put1(uLeft, b, sub(uOut, drag));
    put1(pLeft, b, add(pOut, dp));
    put(rRight, b, add(rIn, expansion));
    put(uRight, b, sub(uIn, drag));
    put(pRight, b, add(pIn, dp));

    const fast = gt(size(vel), sound);
    if (any(fast)) {
      if (holds0(fast)) traceSupersonic(d, i);
      if (holds1(fast)) traceSupersonic(d, i + 1);
    }
  }
  if (d.mixed) traceBurnt(d);
}

function traceBurnt(d: Duct): void {
  const n = d.cells, dtdx = both(d.dt / d.dx);
  const u = d.u, y = d.y, yFace = d.yFace, yLeft = d.yLeft, yRight = d.yRight;
  for (let i = 0; i < n; i += 2) {
    const b = <usize>(i < n - 1 ? i : n - 2) << 3;
    const value = at2(y, b);
    let left = at(yFace, b), right = at1(yFace, b);
    const d1 = sub(right, left), c6 = bend(value, left, right);
    const square = mul(d1, d1), product = mul(d1, c6);
    const flat = le(mul(sub(right, value), sub(value, left)), both(0));
    const leftLimited = sub(mul(both(3), value), mul(both(2), right));
    const rightLimited = sub(mul(both(3), value), mul(both(2), left));
    left = pick(flat, value, pick(gt(product, square), leftLimited, left));
    right = pick(flat, value, pick(gt(neg(square), product), rightLimited, right));
    const slope = sub(right, left), curve = bend(value, left, right);
    const s = mul(at2(u, b), dtdx), half = mul(both(0.5), s), third = mul(both(2.0 / 3.0), s);
    const forth = gt(s, both(0));
    put1(yLeft, b, sub(right, and(forth, mul(half, sub(slope, mul(sub(both(1), third), curve))))));
    put(yRight, b, sub(left, unless(forth, mul(half, add(slope, mul(add(both(1), third), curve))))));
  }
}
