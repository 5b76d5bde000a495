/** Where the build had no compiler for the two-lane kernel: `auto` is the plain one, asked for by name it is refused. Ring: identity. */

import { expect, test, vi } from 'vitest';
import {
  ConservativeDuct,
  GasModel,
  hasTwoLanes,
  type KernelChoice,
  meshTapers,
  newDuct,
} from '../../solver/index.ts';

vi.mock('#two-lane-kernel', () => ({ KERNEL: '' }));

const made = (kernel: KernelChoice) =>
  newDuct(
    'conservative',
    'tube',
    GasModel.air(),
    meshTapers([{ length: 1, diameter: [0.04, 0.04] }], 10),
    undefined,
    true,
    kernel,
  );

test('a build without the kernel', () => {
  expect(hasTwoLanes()).toBe(false);
  expect(made('auto').constructor).toBe(ConservativeDuct);
  expect(made('plain').constructor).toBe(ConservativeDuct);
  expect(() => made('two-lane')).toThrow(
    expect.objectContaining({
      name: 'NoTwoLanes',
      exitCode: 3,
      message: expect.stringMatching(/was not built/),
    }),
  );
});
