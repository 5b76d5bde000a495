/**
 * Rings: regression between two independent methods, and identity along characteristics. The demo by the conservative scheme
 * against the textbook mesh method at three speeds of its band; and the computed plug-back against the wave traced through
 * the settled fields and against the handbook's constant sound speed.
 *
 * The mesh method loses mass where waves have steepened and where hot and cold gas meet (it balances to tens of per cent of the
 * trapped mass a cycle here), so its gas is a little hotter or cooler and it lands a degree apart; near the edge of the band,
 * where small changes tip the engine over, torque differs by more (4.8 % at 10 000 rpm when this was written).
 */

import { describe, expect, test } from 'vitest';
import { draft, rowAt } from './demo.ts';

const subject = draft('a');
const SPEEDS = [8500, 9000, 9500];
const rows = SPEEDS.map((rpm) => rowAt(subject, rpm));

describe.each(SPEEDS.map((rpm, k) => [rpm, k] as const))('at %i rpm', (rpm, k) => {
  const row = rows[k]!;

  test('the mesh method agrees on the plug-back within 1.5 degrees and on torque within 3 %', () => {
    const mesh = rowAt({ ...subject, run: { ...subject.run, scheme: 'mesh' } }, rpm);
    expect(Math.abs(mesh.plugback_peak_deg - row.plugback_peak_deg)).toBeLessThan(1.5);
    expect(Math.abs(mesh.torque_nm / row.torque_nm - 1)).toBeLessThan(0.03);
    // Why they differ: one of them does not conserve mass.
    expect(mesh.mass_balance_error).toBeGreaterThan(1e-3);
    expect(row.mass_balance_error).toBeLessThan(1e-9);
  });

  test('the plug-back sets in with the wave traced to the start of the baffle, and peaks before that from its end', () => {
    expect(Math.abs(row.plugback_onset_deg - row.traced_return_baffle_start_deg)).toBeLessThan(1);
    expect(row.plugback_peak_deg).toBeGreaterThan(row.traced_return_baffle_middle_deg);
    expect(row.plugback_peak_deg).toBeLessThan(row.traced_return_baffle_end_deg + 3);
  });

  test('the handbook, which knows neither the pulse nor the gas stream, is up to a dozen degrees behind the trace', () => {
    const behind = row.handbook_return_deg - row.traced_return_baffle_end_deg;
    expect(behind).toBeGreaterThan(0);
    expect(behind).toBeLessThan(12);
  });
});

test('the handbook return grows in proportion to speed, the traced one does not', () => {
  const [low, , high] = rows;
  const turned = (deg: number): number => deg - low!.exhaust_opens_deg;
  expect(turned(high!.handbook_return_deg) / turned(low!.handbook_return_deg)).toBeCloseTo(9500 / 8500, 6);
  const traced = turned(high!.traced_return_baffle_middle_deg) / turned(low!.traced_return_baffle_middle_deg);
  expect(traced).toBeLessThan(9500 / 8500);
});
