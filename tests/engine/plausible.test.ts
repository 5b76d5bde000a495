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

/** Drawn at random: no state found on coarser cells can be marched on cells of 20 mm, one found on finer ones can. */
test('a steep passage of two cells runs, from fields found on a finer mesh', () => {
  const short = loadCase(new URL('../repro/cold-start-58.yaml', import.meta.url).pathname);
  const { row, notes } = runSpeed({ subject: short, rpm: 9790, start: null, brief: true }).record;
  expect(short.run.cell).toBe(0.02);
  expect(notes.join('\n')).not.toContain('the march failed');
  expect(row.settled).toBe(true);
  // On cells of 5 mm, where every start marches, it is 8.00.
  expect(row.torque_nm).toBeCloseTo(8, 0);
});
