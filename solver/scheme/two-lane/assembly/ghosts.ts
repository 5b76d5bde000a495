// Two ghost cells at each end, as `fillGhosts` of ../../conservative/decode.ts.

import { GHOSTS, Row } from "./layout";

export function fillGhosts(q: Row, cells: i32): void {
  extrapolate(q, GHOSTS, 1);
  extrapolate(q, cells + GHOSTS - 1, -1);
}

function extrapolate(q: Row, edge: i32, inward: i32): void {
  const a = q[edge];
  const b = q[edge + inward];
  const c = q[edge + 2 * inward];
  const slope = a - b;
  const one = 2 * a - 3 * b + c;
  if (one * slope <= 0) {
    q[edge - inward] = a;
    q[edge - 2 * inward] = a;
    return;
  }
  const bound = 2 * Math.abs(slope);
  const limited = Math.abs(one) <= bound ? one : Math.sign(one) * bound;
  const two = limited == one ? 5 * a - 8 * b + 3 * c : 2 * limited;
  q[edge - inward] = a + limited;
  q[edge - 2 * inward] = a + two;
}
