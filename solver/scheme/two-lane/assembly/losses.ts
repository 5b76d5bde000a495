// Wall friction, losses of shape and the heat of pulsating flow, as ../../conservative/cell-losses.ts; the roughness term of Haaland's formula is
// the duct's own and does not change.

import { add, at, at2, both, div, lt, most, mul, pick, put, root, size } from "./lanes";
import { Duct } from "./layout";
import { logarithms } from "./logarithms";

const LAMINAR_BELOW: f64 = 2300;
const LN_10: f64 = 2.302585092994045684;

export function refreshLosses(d: Duct): void {
  const n = d.cells, r = d.r, u = d.u, T_ = d.T, friction = d.friction != 0, heated = d.pulsatingHeat != 0;
  for (let i = 0; i < n; i += 2) {
    // The last odd cell is done together with the one before it.
    const b = <usize>(i < n - 1 ? i : n - 2) << 3;
    const D = at(d.diameter, b), T = at2(T_, b), velocity = at2(u, b);
    const t = mul(T, both(1 / 273.15));
    const power = mul(t, root(t));
    const viscosity = div(mul(both(1.716e-5 * (273.15 + 110.4)), power), add(T, both(110.4)));
    const reynolds = div(mul(mul(at2(r, b), size(velocity)), D), viscosity);
    const shape = pick(lt(velocity, both(0)), at(d.shapeBack, b), at(d.shapeAhead, b));
    put(d.shapeNow, b, shape);
    if (friction) {
      const within = add(at(d.roughTerm, b), div(both(6.9), most(reynolds, both(LAMINAR_BELOW))));
      const inverse = mul(both(-1.8 / LN_10), logarithms(within));
      put(d.frictionOverD, b, add(div(both(0.5), mul(mul(inverse, inverse), D)), shape));
    } else put(d.frictionOverD, b, shape);
    if (!heated) continue;
    const conductivity = div(mul(both(0.0241 * (273.15 + 194)), power), add(T, both(194)));
    const half = root(reynolds);
    const h = mul(mul(both(0.07), mul(half, root(half))), conductivity);
    put(d.heatOverD, b, div(mul(mul(both(4), at(d.heatFactor, b)), h), mul(D, D)));
  }
}
