/** Ring: identity. What makes a run advice: gains, edges and costs of rows of which each number is known. */

import { expect, test } from 'vitest';
import { bestOfScreen, costAgainst, followedLanding, gainOf } from '../../src/findings/answers/advice.ts';
import { asSwept } from '../../src/findings/answers/as-swept.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { syntheticSweep } from '../plots/synthetic-sweep.ts';

const base = syntheticSweep().rows[0] as SweepRow;
const row = (speed_rpm: number, torque_nm: number, middle = 262): SweepRow => ({
  ...base,
  speed_rpm,
  torque_nm,
  plugback_centroid_deg: middle,
  plugback_share_before_closing: 0.9,
});

test('a gain is a share of what was; none of a failure', () => {
  expect(gainOf(row(9000, 20), row(9000, 21))).toBeCloseTo(0.05, 12);
  expect(gainOf(row(9000, 20), null)).toBeNull();
  expect(gainOf(row(9000, -1), row(9000, 1))).toBeNull();
});

test('an edge is promised only where it was found: beyond the speeds run it is not known', () => {
  // 246 is half-way from 236 to 256.
  expect(followedLanding([row(8000, 15, 236), row(8500, 20, 256), row(9000, 20)], 500)).toEqual({
    from: 8250,
    to: null,
  });
  expect(followedLanding([row(8000, 15, 236)], 500)).toEqual({ from: null, to: null });
  // Between speeds two steps apart the wave may begin to land anywhere.
  expect(followedLanding([row(8000, 15, 236), row(8500, 20, 256), row(9000, 20)], 250).from).toBeNull();
});

test('the cost is the largest loss within the band, where it is worth naming', () => {
  const sweep = [row(8000, 18), row(8500, 20), row(9000, 20), row(9500, 15)];
  const changed = [row(8000, 10), row(8500, 19), row(9000, 18), row(9500, 5)];
  expect(costAgainst(sweep, changed, { from: 8400, to: 9100 })).toEqual({ at_rpm: 9000, torque_nm: -2 });
  expect(costAgainst(sweep, sweep, { from: 8000, to: 9500 })).toBeNull();
});

test('of screened changes the best is taken, or one of the header that gains nearly as much', () => {
  const change = (gain: number | null, simple = false) => ({ gain, simple });
  expect(bestOfScreen([change(0.02), change(0.05), change(null)])).toBe(1);
  expect(bestOfScreen([change(0.041, true), change(0.05), change(0.01, true)])).toBe(0);
  expect(bestOfScreen([change(0.039, true), change(0.05)])).toBe(1);
  // Less than half of what is worth a change of metal, on cells that miss by as much.
  expect(bestOfScreen([change(0.007), change(-0.1)])).toBeNull();
  expect(bestOfScreen([])).toBeNull();
});

test('a row of other cells is told as the sweep would have it, where both meshes stand alike', () => {
  const known = { ...row(9000, 20), plugback_centroid_deg: 260 };
  const here = { ...row(9000, 20.4), plugback_centroid_deg: 261.5 };
  const told = asSwept({ ...row(9500, 15.3), plugback_centroid_deg: 270 }, { known, here });
  expect(told.torque_nm).toBeCloseTo(15, 9);
  expect(told.plugback_centroid_deg).toBeCloseTo(268.5, 9);
  // A fifth less torque is another state of the engine, and nothing of the meshes.
  const other = asSwept(row(9500, 15.3), { known, here: row(9000, 16) });
  expect(other.torque_nm).toBe(15.3);
});
