/** A step of the running demo engine, with a recorder at its side, allocates nothing. On the built program. */

import { expect, test } from 'vitest';
import { heapOf } from '../solver/heap-of-script.ts';

test.each(['plain', 'two-lane'])('the demo engine, some cycles on, %s kernel', (kernel) => {
  const { used, kept } = heapOf(new URL('allocation-march.mjs', import.meta.url), kernel);
  // A boxed number a step is 16 bytes, one a degree of the crank 7; what the counting itself takes is less than one byte. One is
  // boxed where it is handed from function to function, or read from objects of two shapes.
  expect(used).toBeLessThan(4);
  expect(kept).toBeLessThan(2);
});
