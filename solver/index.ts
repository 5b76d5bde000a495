/**
 * The solver alone: one-dimensional gas dynamics of ducts, ends and volumes. No Node, no files, no engine: functions of
 * time go in. Everything SI.
 */

export { DuctEnd, ANSWER, ARRIVE } from './duct/duct-end.ts';
export { Duct } from './duct/duct.ts';
export {
  cellsFor,
  diameterAt,
  type DuctGeometry,
  meshTapers,
  type Taper,
  totalLength,
  volumeBefore,
} from './duct/geometry.ts';
export type { MarchingDuct } from './duct/marching.ts';
export { GHOSTS, type WallLosses } from './duct/state.ts';
export { venaContracta } from './ends/vena-contracta.ts';
export { newReservoir, RESERVOIR, type Reservoir, setReservoir } from './ends/reservoir.ts';
export { GasModel } from './gas/gas-model.ts';
export { airFuelRatio, burntMoles, freshCharge, reactionHeat, thermalGas } from './gas/mixture.ts';
export { conductivity, viscosity } from './losses/wall-losses.ts';
export { type Link, newFlow, type PassageLink, type PortLink } from './network/link.ts';
export { energyGain, type Ledger, newLedger } from './network/ledger.ts';
export { MarchFailure, Network } from './network/network.ts';
export { fixedOpening, type Opening } from './volumes/opening.ts';
export { petalFrequency, type ReedPetals, ReedValve } from './volumes/reed.ts';
export { rigidDrive, type StreamRole, Volume, type VolumeDrive } from './volumes/volume.ts';
