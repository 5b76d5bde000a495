/** The engine with gas that mixes, two zones and a burn that residual gas slows. Ring: conservation, and which way it goes. */

import { expect, test } from 'vitest';
import { draft, rowAt, withCell } from './demo.ts';

const off = ['run.mixing=0', 'engine.scavenging=threeWay', 'engine.combustion.residualAtDuration=none'];
const coarse = (set: readonly string[]) => withCell(draft('a', set), 0.02);

test('keeps mass and energy, traps charge that is less pure, and makes less torque', () => {
  const plain = rowAt(coarse(off), 10_000);
  const mixed = rowAt(coarse([]), 10_000);
  expect(Math.abs(mixed.mass_balance_error)).toBeLessThan(1e-9);
  expect(Math.abs(mixed.energy_balance_error)).toBeLessThan(1e-6);
  // Good loop scavenging keeps some tenth of residual gas (common practice, no source); displacement keeps next to none.
  expect(mixed.scavenging_efficiency).toBeLessThan(plain.scavenging_efficiency - 0.02);
  expect(mixed.torque_nm).toBeLessThan(plain.torque_nm);
  expect(mixed.torque_nm).toBeGreaterThan(0.8 * plain.torque_nm);
});
