/** A step of the running demo engine allocates next to nothing. On the built program. */

import { expect, test } from 'vitest';
import { heapOf } from '../../solver/heap-of-script.ts';

test('the demo engine, some cycles on', () => {
  const { used, kept } = heapOf(new URL('allocation-march.mjs', import.meta.url));
  // Three to fifteen boxed numbers of 16 bytes, by what the compiler inlines: the step taken, the piston's travel and the
  // like. Numbers handed on as arguments all along made it three thousand bytes.
  expect(used).toBeLessThan(400);
  expect(kept).toBeLessThan(8);
});
