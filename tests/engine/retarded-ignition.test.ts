/**
 * Retarding ignition above the peak carries the wave along: hotter gas, a faster wave, a band that reaches further up. Common
 * practice, no source; the angles are invented.
 */

import { expect, test } from 'vitest';
import { draft, rowAt } from './demo.ts';

const curve = '[{ speed: 10000 rpm, angle: -14 deg }, { speed: 11000 rpm, angle: -4 deg }]';
const at = (rpm: number, ...set: string[]) => rowAt(draft('a', ['run.cell=20 mm', ...set]), rpm);

test('ignition retarded above the peak extends the band upwards', () => {
  const [fixed, retarded] = [at(10_750), at(10_750, `engine.combustion.start=${curve}`)];
  expect(retarded.exhaust_gas_temperature_k).toBeGreaterThan(fixed.exhaust_gas_temperature_k + 20);
  expect(retarded.plugback_centroid_deg).toBeLessThan(fixed.plugback_centroid_deg - 4);
  expect(retarded.torque_nm).toBeGreaterThan(1.05 * fixed.torque_nm);
  // At 11 000 rpm the wave lands by the curve only.
  const beyond = at(11_000, `engine.combustion.start=${curve}`);
  expect(beyond.plugback_centroid_deg).toBeLessThan(beyond.exhaust_closes_deg);
  expect(at(11_000).plugback_centroid_deg).toBeGreaterThan(beyond.exhaust_closes_deg);
});
