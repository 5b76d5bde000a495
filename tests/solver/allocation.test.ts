/** A step allocates nothing in its ducts, next to nothing at their ends, and leaves nothing behind. On the built solver. */

import { describe, expect, test } from 'vitest';
import { heapOf } from './heap-of-script.ts';

const script = new URL('allocation-march.mjs', import.meta.url);

describe('the heap over thousands of steps', () => {
  test.each(['perfect', 'blend'] as const)('a bare duct of %s gas', (gas) => {
    const { used, kept } = heapOf(script, gas, 'bare');
    // The step taken is handed back as one boxed number of 16 bytes. One a cell would be 6400.
    expect(used).toBeLessThan(40);
    expect(kept).toBeLessThan(8);
  });

  test.each(['perfect', 'blend'] as const)('a rig with every link, %s gas', (gas) => {
    const { used, kept } = heapOf(script, gas, 'whole');
    // Some twenty numbers: two prescribed waves, which are plain functions of time, and single results at the ends. With
    // one for each trial of the iterations there it was ten thousand bytes.
    expect(used).toBeLessThan(400);
    expect(kept).toBeLessThan(8);
  });
});
