/** Makes a duct of either scheme. */

import type { MarchingDuct } from '../duct/duct.ts';
import type { DuctGeometry } from '../duct/geometry.ts';
import type { WallLosses } from '../duct/wall-losses.ts';
import type { GasModel } from '../gas/gas-model.ts';
import { ConservativeDuct } from './conservative/conservative-duct.ts';
import { TextbookDuct } from './textbook/textbook-duct.ts';

/** `conservative` is the method to trust; `mesh` the textbook method of characteristics, for comparison. */
export type Scheme = 'conservative' | 'mesh';

/** A duct of the scheme; losses are off by default, `mixed` false skips the transport of the burnt fraction. */
export function newDuct(
  scheme: Scheme,
  name: string,
  gas: GasModel,
  geometry: DuctGeometry,
  losses?: WallLosses,
  mixed = true,
): MarchingDuct {
  return scheme === 'mesh'
    ? new TextbookDuct(name, gas, geometry, losses, mixed)
    : new ConservativeDuct(name, gas, geometry, losses, mixed);
}
