/** A step of either kernel, and of finite volumes, allocates nothing in ducts, ends and volumes, and leaves nothing behind. On the built solver. */

import { describe, expect, test } from 'vitest';
import { hasTwoLanes } from '../../solver/index.ts';
import { heapOf } from './heap-of-script.ts';

const script = new URL('allocation-march.mjs', import.meta.url);

const kernels = hasTwoLanes() ? ['plain', 'two-lane'] : ['plain'];

describe.each(kernels)('the heap over thousands of steps, %s kernel', (kernel) => {
  test.each(['perfect', 'blend'] as const)('a bare duct of %s gas', (gas) => {
    const { used, kept } = heapOf(script, gas, 'bare', kernel);
    // Less than one boxed number of 16 bytes a step. One a cell would be 6400.
    expect(used).toBeLessThan(16);
    expect(kept).toBeLessThan(8);
  });

  test.each(['perfect', 'blend'] as const)('a rig with every link, %s gas', (gas) => {
    const { used, kept } = heapOf(script, gas, 'whole', kernel);
    // Ten numbers, all of them of the two prescribed waves, which are plain functions of time. With one for each trial of
    // the iterations at the ends it was ten thousand bytes.
    expect(used).toBeLessThan(240);
    expect(kept).toBeLessThan(8);
  });
});

test('the heap over thousands of steps of finite volumes in a rig with every link', () => {
  const { used, kept } = heapOf(script, 'blend', 'whole', 'finite-volume');
  expect(used).toBeLessThan(240);
  expect(kept).toBeLessThan(8);
});
