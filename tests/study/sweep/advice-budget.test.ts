/** Ring: identity. What advice may cost is shared before anything is run: the same whatever the clock, never more than a third. */

import { describe, expect, test } from 'vitest';
import type { SweepRow } from '../../../src/findings/row.ts';
import { allowance, cellsFor, granted } from '../../../src/study/sweep/advice-budget.ts';
import { speedWork, sweepWork } from '../../../src/study/work/march-work.ts';
import { syntheticSweep } from '../../plots/synthetic-sweep.ts';

const cells = cellsFor(0.005);
const wanted = [{ changes: 14 }, { changes: 1 }, { changes: 1 }, { changes: 10 }];

describe('the work of marching', () => {
  test('goes with cells and steps, and a cold start adds its cycles on coarse cells', () => {
    const [five, ten] = [0.005, 0.01].map(
      (cell) => speedWork(cell, 101, 'warm') - speedWork(cell, 1, 'warm'),
    );
    expect(five).toBeCloseTo(100 * (1 + 3.6 ** 2), 9);
    expect(ten).toBeCloseTo(100 * (1 + 1.8 ** 2), 9);
    expect(speedWork(0.005, 9, 'cold') - speedWork(0.005, 9, 'warm')).toBeCloseTo(14 * (1 + 0.9 ** 2), 9);
  });

  test('of a sweep is a third of what its rows and cold starts took', () => {
    const synthetic = syntheticSweep({ from: 8000, to: 8500 });
    const rows = synthetic.rows.map((row): SweepRow => ({ ...row, cycles: 10 }));
    // Three speeds: the last quarter is rounded up, so each begins a group of its own.
    expect(sweepWork(rows, 0.005, () => true)).toBeCloseTo(3 * speedWork(0.005, 10, 'cold'), 9);
    const result = { rows, case: { run: { cell: 0.005, speeds: [8000, 8250, 8500] } } };
    expect(allowance(result as unknown as Parameters<typeof allowance>[0])).toBeCloseTo(
      speedWork(0.005, 10, 'cold'),
      9,
    );
  });
});

describe('what is granted', () => {
  test('is all of it where there is plenty, nothing where there is none', () => {
    expect(granted(wanted, 1e6, cells).map(({ changes }) => changes)).toEqual([14, 1, 1, 10]);
    expect(granted(wanted, 0, cells).map(({ changes }) => changes)).toEqual([0, 0, 0, 0]);
  });

  test('goes to the target first, and to more purposes where there is more', () => {
    let before = 0;
    for (let work = 0; work < 3000; work += 100) {
      const tried = granted(wanted, work, cells).filter(({ changes }) => changes > 0);
      // What is too little for the screen of a target may do for one change that moves the band.
      if (tried.length > 1) expect(granted(wanted, work, cells)[0]?.changes).toBeGreaterThan(0);
      expect(tried.length).toBeGreaterThanOrEqual(before);
      before = tried.length;
    }
    expect(before).toBe(4);
  });

  test('is tried on cells no finer than the sweep itself', () => {
    expect(cellsFor(0.005)).toEqual({ coarse: 0.02, fine: 0.01 });
    expect(cellsFor(0.012)).toEqual({ coarse: 0.02, fine: 0.012 });
    expect(cellsFor(0.03)).toEqual({ coarse: 0.03, fine: 0.03 });
  });
});
