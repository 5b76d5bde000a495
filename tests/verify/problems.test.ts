/** Every problem of `echocone verify` on all its meshes. Ring: that of the problem. */

import { describe, expect, test } from 'vitest';
import { failedCheck, judge, observedOrder, runCheck } from '../../src/verify/check.ts';
import { problems } from '../../src/verify/problem-list.ts';
import type { Problem } from '../../src/verify/rig/problem.ts';

describe('problems with known answers', () => {
  test.each(problems.map((problem) => ({ name: problem.name, problem })))('$name', ({ problem }) => {
    const { pass, errors, order, bound } = judge(problem);
    expect(pass, `errors ${errors.join(', ')}, order ${order}; ${bound}`).toBe(true);
  });

  test('have names of their own that fit a terminal, a source and an error’s meaning', () => {
    expect(new Set(problems.map(({ name }) => name)).size).toBe(problems.length);
    for (const { name, source, quantity, cells, judged } of problems) {
      expect(name.length).toBeLessThanOrEqual(28);
      expect(source).not.toBe('');
      expect(quantity).toMatch(/\[.+\]/);
      expect(cells[judged]).toBeGreaterThan(0);
      cells.forEach((n, k) => {
        expect(n).toBe((cells[0] as number) * 2 ** k);
      });
    }
  });
});

describe('judging', () => {
  const falling = (power: number, size = 1): Problem => ({
    name: 'falling',
    ring: 'observed order',
    source: 'made up here',
    quantity: 'something [-]',
    cells: [10, 20, 40],
    judged: 1,
    bound: 0.01,
    run: (cells) => ({ error: size * cells ** -power }),
  });

  test('within the bound on the mesh it is for', () => {
    const check = judge(falling(2));
    expect(check.pass).toBe(true);
    expect(check.order).toBeCloseTo(2, 12);
    expect(check.bound).toBe('at most 0.01 at 20 cells');
  });

  test('above the bound there, though not on the finest mesh', () => {
    expect(judge(falling(1, 0.3)).errors[2]).toBeLessThan(0.01);
    expect(judge(falling(1, 0.3)).pass).toBe(false);
  });

  test('within the bound but short of the order', () => {
    expect(judge({ ...falling(1, 1e-3), order: 1.9 }).pass).toBe(false);
    expect(judge({ ...falling(2, 1e-3), order: 1.9 }).pass).toBe(true);
  });

  test('an error that is no number is a miss', () => {
    expect(judge({ ...falling(2), run: () => ({ error: Number.NaN }) }).pass).toBe(false);
  });

  test('a run that ends in an error is a miss that says why', () => {
    const check = failedCheck(falling(2), 'the duct burst');
    expect(check).toMatchObject({ pass: false, errors: [], order: null, note: 'the duct burst' });
  });

  test('no order where there is one mesh, or no error', () => {
    expect(observedOrder([1e-3])).toBeNull();
    expect(observedOrder([0, 0])).toBeNull();
  });

  test('curves are thinned for the page, ends kept', () => {
    const x = Array.from({ length: 4001 }, (_, i) => i);
    const curve = { x, y: x };
    const comparison = { title: '', read: '', xName: '', yName: '', computed: curve, exact: curve };
    const kept = judge({ ...falling(2), run: () => ({ error: 0, comparison }) }).comparison?.computed.x ?? [];
    expect(kept.length).toBeLessThan(510);
    expect([kept[0], kept.at(-1)]).toEqual([0, 4000]);
  });

  test('a place beyond the list is refused', () => {
    expect(() => runCheck({ index: problems.length })).toThrow(RangeError);
  });
});
