/** A step of the running demo engine, with a recorder at its side, allocates nothing. On the built program. */

import { expect, test } from 'vitest';
import { heapOf } from '../solver/heap-of-script.ts';

test('the demo engine, some cycles on', () => {
  const { used, kept } = heapOf(new URL('allocation-march.mjs', import.meta.url));
  // Nine bytes, which is what the beginnings of cycles come to: less than one boxed number (16) a step. One that is handed
  // from function to function, or read from objects of two shapes, makes it more.
  expect(used).toBeLessThan(16);
  expect(kept).toBeLessThan(8);
});
