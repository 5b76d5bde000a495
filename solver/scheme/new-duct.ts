/** Makes a duct of any scheme, and of either form of the conservative one. */

import type { MarchingDuct } from '../duct/duct.ts';
import type { DuctGeometry } from '../duct/geometry.ts';
import type { WallLosses } from '../duct/wall-losses.ts';
import type { GasModel } from '../gas/gas-model.ts';
import { ConservativeDuct } from './conservative/conservative-duct.ts';
import { FiniteVolumeDuct } from './finite-volume/finite-volume-duct.ts';
import { TextbookDuct } from './textbook/textbook-duct.ts';
import { hasTwoLanes } from './two-lane/kernel.ts';
import { TwoLaneDuct } from './two-lane/two-lane-duct.ts';

/**
 * `conservative` is the method to trust; `finite-volume` the second opinion, as conservative and of another family; `mesh` the
 * textbook method of characteristics, for comparison.
 */
export type Scheme = 'conservative' | 'finite-volume' | 'mesh';

/**
 * The form of the conservative scheme: `plain` is TypeScript, `two-lane` is compiled and some three times faster, `auto` the latter
 * where it was built and can run. One step of either from the same state agrees to round-off.
 */
export type KernelChoice = 'auto' | 'two-lane' | 'plain';

/**
 * A duct of the scheme; losses are off by default, `mixed` false skips the transport of the burnt fraction.
 * @throws NoTwoLanes where the two-lane kernel is asked for by name and cannot be had.
 */
export function newDuct(
  scheme: Scheme,
  name: string,
  gas: GasModel,
  geometry: DuctGeometry,
  losses?: WallLosses,
  mixed = true,
  kernel: KernelChoice = 'auto',
): MarchingDuct {
  if (scheme === 'mesh') return new TextbookDuct(name, gas, geometry, losses, mixed);
  if (scheme === 'finite-volume') return new FiniteVolumeDuct(name, gas, geometry, losses, mixed);
  const lanes = kernel === 'two-lane' || (kernel === 'auto' && hasTwoLanes());
  return new (lanes ? TwoLaneDuct : ConservativeDuct)(name, gas, geometry, losses, mixed);
}
