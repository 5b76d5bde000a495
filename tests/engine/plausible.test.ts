/**
 * Ring: regression. A plausible engine, drawn at random, whose start on a coarse mesh could not be marched at this speed: it is
 * tried finer, then with a smaller Courant number, before it is called a failure.
 */

import { describe, expect, test } from 'vitest';
import { loadCase } from '../../src/case/load.ts';
import { runSpeed } from '../../src/engine/run/run-speed.ts';

const subject = loadCase(new URL('../repro/nan-plausible-500035.yaml', import.meta.url).pathname);

describe('a 32 cc single of a 166 deg exhaust', () => {
  test.each([11_993])('runs at %i rpm', (rpm) => {
    const { row } = runSpeed({ subject, rpm, start: null, brief: true }).record;
    expect(row.mass_balance_error).toBeLessThan(1e-9);
    expect(row.energy_balance_error).toBeLessThan(1e-6);
    expect(row.bmep_bar).toBeGreaterThan(0);
    expect(row.delivery_ratio).toBeGreaterThan(0);
  });
});
