// Stage 1, as ../../conservative/decode.ts. The last odd cell of a duct is done together with the one before it, which comes
// out the same once more.

import { fillGhosts } from "./ghosts";
import {
  add, all, and, at, at2, both, div, everywhere, firsts, gt, lane0, lane1, le, lt, most, mul, pick, put2, root, seconds,
  size, sub, unless,
} from "./lanes";
import { Duct } from "./layout";
import { address0, address1, blended0, blended1, ROW_WIDTH, rowsOf, slopes, startOf } from "./table";

/** Rows tried for a cell's temperature, and how far beyond a row its answer still stands [K]. */
const ROUNDS: i32 = 12;
const EDGE: f64 = 1e-9;

export function decode(d: Duct): void {
  if (d.gas.perfect) decodePerfect(d);
  else decodeBlend(d);
  fillGhosts(d.r, d.cells);
  fillGhosts(d.u, d.cells);
  fillGhosts(d.p, d.cells);
  if (d.mixed) fillGhosts(d.y, d.cells);
}

function decodePerfect(d: Duct): void {
  const n = d.cells, r = d.r, u = d.u, p = d.p, a = d.a, T_ = d.T, gamma = d.gamma;
  const density = d.parity ? d.density1 : d.density0;
  const momentum = d.parity ? d.momentum1 : d.momentum0;
  const energy = d.parity ? d.energy1 : d.energy0;
  const gm1 = both(d.gas.gasConstantFresh / d.gas.perfectCv);
  const g = add(both(1), gm1);
  const overR = both(1 / d.gas.gasConstantFresh);
  const coldest = both(d.gas.coldest), hottest = both(d.gas.hottest);
  let fastest = both(0);
  let sane = everywhere();
  for (let i = 0; i < n; i += 2) {
    const b = <usize>(i < n - 1 ? i : n - 2) << 3;
    const rho = at(density, b);
    const inverse = div(both(1), rho);
    const m = at(momentum, b);
    const vel = mul(m, inverse);
    const pressure = mul(gm1, sub(at(energy, b), mul(both(0.5), mul(m, vel))));
    const over = mul(pressure, inverse);
    const sound = root(mul(g, over));
    const T = mul(over, overR);
    put2(r, b, rho);
    put2(u, b, vel);
    put2(p, b, pressure);
    put2(a, b, sound);
    put2(T_, b, T);
    put2(gamma, b, g);
    fastest = most(fastest, add(size(vel), sound));
    sane = and(sane, isPhysical(rho, pressure, T, coldest, hottest));
  }
  d.fastest = all(sane) ? Math.max(lane0(fastest), lane1(fastest)) : NaN;
}

function decodeBlend(d: Duct): void {
  const n = d.cells, r = d.r, u = d.u, p = d.p, y = d.y, a = d.a, T_ = d.T, gamma = d.gamma;
  const density = d.parity ? d.density1 : d.density0;
  const momentum = d.parity ? d.momentum1 : d.momentum0;
  const energy = d.parity ? d.energy1 : d.energy0;
  const burnt = d.parity ? d.burnt1 : d.burnt0;
  const table = d.gas.table;
  const Rf = both(d.gas.gasConstantFresh), dR = both(d.gas.gasConstantBurnt - d.gas.gasConstantFresh);
  const coldest = both(d.gas.coldest), hottest = both(d.gas.hottest);
  let fastest = both(0);
  let sane = everywhere();
  for (let i = 0; i < n; i += 2) {
    const b = <usize>(i < n - 1 ? i : n - 2) << 3;
    const rho = at(density, b);
    const inverse = div(both(1), rho);
    const vel = mul(at(momentum, b), inverse);
    const share = mul(at(burnt, b), inverse);
    const target = sub(mul(at(energy, b), inverse), mul(both(0.5), mul(vel, vel)));
    let T = at2(T_, b);
    T = pick(gt(T, coldest), T, both(300));
    let cv = both(1);
    let held = both(0);
    for (let round = 0; round < ROUNDS; round++) {
      const rows = rowsOf(T);
      const row0 = address0(table, rows), row1 = address1(table, rows);
      const e0 = blended0(row0, share), e1 = blended1(row1, share);
      const s0 = slopes(row0), s1 = slopes(row1);
      const cvStart = seconds(e0, e1);
      const slope = add(firsts(s0, s1), mul(share, seconds(s0, s1)));
      const above = sub(target, firsts(e0, e1));
      // Within a row e = e0 + cv0 dT + slope dT^2 / 2, solved exactly; beyond it this is the next guess.
      const square = add(mul(cvStart, cvStart), mul(both(2), mul(slope, above)));
      const dT = div(mul(both(2), above), add(cvStart, root(most(square, both(0)))));
      cv = add(cvStart, mul(slope, dT));
      T = add(startOf(rows), dT);
      held = and(gt(dT, both(-EDGE)), lt(dT, both(ROW_WIDTH + EDGE)));
      if (all(held)) break;
    }
    // No row of the table held it, and it is not beyond the table either: there is no temperature.
    if (!all(held)) T = pick(unless(held, and(gt(T, coldest), le(T, hottest))), both(NaN), T);
    const R = add(Rf, mul(dR, share));
    const over = mul(R, T);
    const g = add(both(1), div(R, cv));
    const sound = root(mul(g, over));
    const pressure = mul(rho, over);
    put2(r, b, rho);
    put2(u, b, vel);
    put2(p, b, pressure);
    put2(y, b, share);
    put2(a, b, sound);
    put2(T_, b, T);
    put2(gamma, b, g);
    fastest = most(fastest, add(size(vel), sound));
    sane = and(sane, isPhysical(rho, pressure, T, coldest, hottest));
  }
  d.fastest = all(sane) ? Math.max(lane0(fastest), lane1(fastest)) : NaN;
}

@inline
function isPhysical(rho: v128, pressure: v128, T: v128, coldest: v128, hottest: v128): v128 {
  return and(and(gt(rho, both(0)), gt(pressure, both(0))), and(gt(T, coldest), le(T, hottest)));
}
