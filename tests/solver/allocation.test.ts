/** A step allocates nothing in its ducts, and leaves nothing behind anywhere. In a process of its own, on the built solver. */

import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

interface Heap {
  /** Bytes of heap that a step uses, and that stay after a sweep. */
  readonly used: number;
  readonly kept: number;
  readonly cells: number;
}

function march(gas: 'perfect' | 'blend', rig: 'bare' | 'whole'): Heap {
  const script = fileURLToPath(new URL('allocation-march.mjs', import.meta.url));
  // A young generation of 64 MB: nothing is swept while the bytes are counted. Compiled in step, so that a busy machine
  // counts the same.
  const flags = [
    '--expose-gc',
    '--no-concurrent-recompilation',
    '--min-semi-space-size=64',
    '--max-semi-space-size=128',
  ];
  return JSON.parse(execFileSync(process.execPath, [...flags, script, gas, rig], { encoding: 'utf8' }));
}

describe('the heap over thousands of steps', () => {
  test.each(['perfect', 'blend'] as const)('a bare duct of %s gas', (gas) => {
    const { used, kept, cells } = march(gas, 'bare');
    // One boxed number a cell would be 12 bytes or more for each; the counting itself leaves a few hundred a step.
    expect(used / cells).toBeLessThan(4);
    expect(kept).toBeLessThan(8);
  });

  test.each(['perfect', 'blend'] as const)('a rig with every link, %s gas', (gas) => {
    const { used, kept } = march(gas, 'whole');
    // The iterations at ends and volumes hand numbers from function to function, some of them boxed for a moment.
    expect(used).toBeLessThan(12_000);
    expect(kept).toBeLessThan(8);
  });
});
