/** Makes a duct of either scheme. */

import type { GasModel } from '../gas/gas-model.ts';
import { MeshDuct } from '../mesh/mesh-duct.ts';
import { Duct } from './duct.ts';
import type { DuctGeometry } from './geometry.ts';
import type { MarchingDuct } from './marching.ts';
import type { WallLosses } from './state.ts';

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
    ? new MeshDuct(name, gas, geometry, losses, mixed)
    : new Duct(name, gas, geometry, losses, mixed);
}
