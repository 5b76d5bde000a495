/**
 * Ring: regression. A plausible engine, drawn at random, of which a third of the charge crosses to the exhaust and almost none
 * displaces: the unmixed zone of its cylinder lives for less than a step, and was drawn from beyond what it held.
 */

import { describe, expect, test } from 'vitest';
import { loadCase } from '../../src/case/load.ts';
import { runSpeed } from '../../src/engine/run/run-speed.ts';

const subject = loadCase(new URL('../repro/nan-plausible-500035.yaml', import.meta.url).pathname);

describe('a 32 cc single of a 166 deg exhaust', () => {
  test.each([10_848, 11_993])('runs at %i rpm', (rpm) => {
    const { row, notes } = runSpeed({ subject, rpm, start: null, brief: true }).record;
    expect(notes.join('\n')).not.toContain('the march failed');
    expect(row.mass_balance_error).toBeLessThan(1e-9);
    expect(row.energy_balance_error).toBeLessThan(1e-6);
    expect(row.bmep_bar).toBeGreaterThan(0);
    expect(row.delivery_ratio).toBeGreaterThan(0);
  });
});

/**
 * Drawn at random: charge is sucked supersonic through two or three cells of a steep passage into a shock. Gas mixed across that
 * shock took more from the first cell than it held, so that no start marched on cells of 17, 18 and 20 mm.
 */
describe('a steep passage of few cells', () => {
  const file = new URL('../repro/cold-start-58.yaml', import.meta.url).pathname;
  test.each([14, 16, 17, 18, 20, 22])('runs on cells of %i mm', (cell) => {
    const short = loadCase(file, { set: [`run.cell=${cell} mm`] });
    const { row, notes } = runSpeed({ subject: short, rpm: 9790, start: null, brief: true }).record;
    expect(short.run.cell).toBeCloseTo(1e-3 * cell, 12);
    expect(notes.join('\n')).not.toContain('the march failed');
    expect(row.settled).toBe(true);
    // On cells of 5 mm it is 8.00.
    expect(row.torque_nm).toBeCloseTo(8, 0);
  });
});
