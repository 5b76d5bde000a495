/**
 * Cell averages turned into values at a point. Between two centres, a share w on from the left one,
 *   q = q_k + w (q_k+1 - q_k) - [w (1-w)/2 + 1/24] q'',
 * the last for the average over a cell; q'' is the smaller of the two neighbouring second differences, nil where they
 * differ in sign or by more than a factor of four, as at a front. From the last centre to the end of the duct the parabola through the last three
 * averages is followed, q_end = (11 q_1 - 7 q_2 + 2 q_3)/6, not beyond the last slope, and not at all at a jump.
 */

import { GHOSTS } from './state.ts';

/** Value at `at` cell lengths from the centre of the first cell. */
export function valueAt(q: Float64Array, at: number, cells: number): number {
  if (at < 0) return edgeValue(q, GHOSTS, 1, -2 * at);
  if (at > cells - 1) return edgeValue(q, cells - 1 + GHOSTS, -1, 2 * (at - cells + 1));
  const i = Math.min(Math.floor(at), cells - 2);
  const w = at - i;
  const k = i + GHOSTS;
  const here = q[k - 1] - 2 * q[k] + q[k + 1];
  const next = q[k] - 2 * q[k + 1] + q[k + 2];
  const line = q[k] + w * (q[k + 1] - q[k]);
  const bow = (0.5 * w * (1 - w) + 1 / 24) * curvature(here, next);
  // A correction as large as half the value is no correction.
  return Math.abs(bow) < 0.5 * Math.abs(line) ? line - bow : line;
}

function curvature(here: number, next: number): number {
  if (here * next <= 0) return 0;
  const small = Math.abs(here) < Math.abs(next) ? here : next;
  const large = small === here ? next : here;
  const alike = (4 * small) / large - 1;
  return alike > 1 ? small : alike > 0 ? alike * small : 0;
}

/** Value a share of half a cell on from the centre of an end's cell to the end. */
function edgeValue(q: Float64Array, edge: number, inward: 1 | -1, share: number): number {
  const a = q[edge];
  const b = q[edge + inward];
  const c = q[edge + 2 * inward];
  const d = q[edge + 3 * inward];
  // A jump bends sharply one way and then the other; an inflection of a smooth wave does so gently.
  const bend = a - 2 * b + c;
  const next = b - 2 * c + d;
  if (bend * next < 0 && Math.abs(bend - next) > Math.abs(a - b)) return a;
  const wanted = (11 * a - 7 * b + 2 * c) / 6 - a;
  const most = 0.5 * Math.abs(a - b);
  return a + share * Math.max(-most, Math.min(most, wanted));
}
