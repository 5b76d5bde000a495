/**
 * The solver alone: one-dimensional gas dynamics of ducts, ends and volumes. No Node, no files, no engine: functions of
 * time go in. Everything SI.
 */

export {
  arcsine,
  arctangent,
  cosine,
  exponentialLessOne,
  logarithm,
  power,
  sine,
  square,
} from './arithmetic/functions.ts';
export type { CellFields, MarchingDuct } from './duct/duct.ts';
export { ANSWER, ARRIVE, DuctEnd } from './duct/duct-end.ts';
export {
  cellsFor,
  type DuctGeometry,
  diameterAt,
  meshTapers,
  type Taper,
  totalLength,
  volumeBefore,
} from './duct/geometry.ts';
export { conductivity, viscosity, type WallLosses } from './duct/wall-losses.ts';
export { venaContracta } from './ends/vena-contracta.ts';
export { GasModel } from './gas/gas-model.ts';
export { airFuelRatio, burntMoles, freshCharge, reactionHeat, thermalGas } from './gas/mixture.ts';
export { newReservoir, RESERVOIR, type Reservoir, setReservoir } from './gas/reservoir.ts';
export { CLOCK, type Clock, newClock } from './march/clock.ts';
export { energyGain, Ledger } from './march/ledger.ts';
export type { Link, PassageLink, PortLink } from './network/link.ts';
export { MarchFailure, Network } from './network/network.ts';
export { stepBetween } from './network/step-between.ts';
export { ConservativeDuct } from './scheme/conservative/conservative-duct.ts';
export { FiniteVolumeDuct } from './scheme/finite-volume/finite-volume-duct.ts';
export { type KernelChoice, newDuct, type Scheme } from './scheme/new-duct.ts';
export { TextbookDuct } from './scheme/textbook/textbook-duct.ts';
export { hasTwoLanes, NoTwoLanes } from './scheme/two-lane/kernel.ts';
export { TwoLaneDuct } from './scheme/two-lane/two-lane-duct.ts';
export {
  type Asked,
  DRIVE,
  movingDrive,
  type Release,
  rigidDrive,
  type VolumeDrive,
} from './volumes/drive.ts';
export { FLOW, type Flow, newFlow } from './volumes/flow.ts';
export { fixedOpening, type Opening } from './volumes/opening.ts';
export { petalFrequency, type ReedPetals, ReedValve } from './volumes/reed.ts';
export type { ScavengingLaw } from './volumes/scavenging/law.ts';
export { type CurvePoint, MeasuredCurve } from './volumes/scavenging/measured-curve.ts';
export { type StreamShares, ThreeWayStream } from './volumes/scavenging/three-way-stream.ts';
export { TwoZones, type ZoneShares } from './volumes/scavenging/two-zones.ts';
export { type StreamRole, Volume } from './volumes/volume.ts';
