// Stage 2, the interface values of ../../conservative/faces.ts; the flattening at shocks is done in trace.ts on the way.

import { add, and, any, at, at1, at2, at3, both, gt, least, lt, mul, or, pick, put, size, sub } from "./lanes";
import { Duct, Row } from "./layout";
import { TRUST } from "./limit";

export function reconstruct(d: Duct): void {
  interfaceValues(d.r, d.rFace, d.cells);
  interfaceValues(d.u, d.uFace, d.cells);
  interfaceValues(d.p, d.pFace, d.cells);
  if (d.mixed) interfaceShares(d.y, d.yFace, d.cells);
}

function interfaceValues(q: Row, face: Row, n: i32): void {
  for (let j = 0; j <= n; j += 2) {
    const b = <usize>j << 3;
    const before = at(q, b), left = at1(q, b), right = at2(q, b), after = at3(q, b);
    const sum = add(left, right);
    let value = mul(sub(mul(both(7), sum), add(before, after)), both(1.0 / 12.0));
    const beyond = lt(mul(sub(value, left), sub(right, value)), both(0));
    if (any(beyond)) value = pick(beyond, limitFace(before, left, right, after, value), value);
    put(face, b, value);
  }
}

/** As in ../../conservative/limit.ts: the least of the curvatures, where they agree in sign. */
@inline
function limitFace(before: v128, left: v128, right: v128, after: v128, value: v128): v128 {
  const sum = add(left, right);
  const own = mul(both(3), sub(sum, mul(both(2), value)));
  const one = add(sub(before, mul(both(2), left)), right);
  const other = add(sub(left, mul(both(2), right)), after);
  const agree = and(gt(mul(own, one), both(0)), gt(mul(own, other), both(0)));
  const curve = least(size(own), mul(both(TRUST), least(size(one), size(other))));
  const signed = and(agree, or(curve, and(own, both(-0.0))));
  return sub(mul(both(0.5), sum), mul(signed, both(1.0 / 6.0)));
}

function interfaceShares(q: Row, face: Row, n: i32): void {
  for (let j = 0; j <= n; j += 2) {
    const b = <usize>j << 3;
    const left = at1(q, b), right = at2(q, b);
    const sum = add(left, right);
    const value = mul(sub(mul(both(7), sum), add(at(q, b), at3(q, b))), both(1.0 / 12.0));
    const beyond = lt(mul(sub(value, left), sub(right, value)), both(0));
    put(face, b, pick(beyond, mul(both(0.5), sum), value));
  }
}
