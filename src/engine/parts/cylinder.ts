/**
 * A cylinder: the volume above the piston with its scavenging, burning and wall heat; and when its ports open and shut, which
 * the march must not step across. Its phase says where its crank pin stands to that of the others.
 */

import {
  type GasModel,
  MeasuredCurve,
  reactionHeat,
  type ScavengingLaw,
  ThreeWayStream,
  TwoZones,
  Volume,
} from '../../../solver/index.ts';
import type { Engine } from '../../model/engine.ts';
import type { PortSchedule } from '../../timing/schedule.ts';
import { type CrankPhase, timeAt } from './crank-phase.ts';
import { type CylinderDrive, cylinderDriveOf } from './cylinder-drive.ts';
import { type ColdStart, EnginePart } from './part.ts';

/** Where a cylinder stands between two exhaust openings. */
export type Stage = 'blowdown' | 'transfer' | 'plugging' | 'closed';

export interface CylinderBook {
  /** Trapped at exhaust closing: all, and the fresh part [kg]. */
  trapped: number;
  trappedFresh: number;
  /** Work of its gas on the piston, heat released, and heat from its wall [J]. */
  cylinderWork: number;
  released: number;
  cylinderHeat: number;
}

export class Cylinder extends EnginePart {
  readonly volume: Volume;
  readonly drive: CylinderDrive;
  readonly phase: CrankPhase;
  override readonly volumes: readonly Volume[];
  /** An engine starts at an exhaust opening of its first cylinder. */
  stage: Stage = 'blowdown';
  sums = newSums();
  private readonly events: PortSchedule['events'];
  private readonly watchers: ((begins: Stage) => void)[] = [];

  constructor(engine: Engine, schedule: PortSchedule, gas: GasModel, phase: CrankPhase) {
    super();
    const { fuel, combustion } = engine;
    const heat =
      combustion.completeness *
      reactionHeat(fuel.hydrogenCarbonRatio, fuel.equivalenceRatio, fuel.lowerHeatingValue);
    this.phase = phase;
    this.events = schedule.events;
    this.drive = cylinderDriveOf(engine, schedule.volumes, phase, heat);
    this.volume = new Volume('cylinder', gas, this.drive, lawOf(engine.scavenging));
    this.volumes = [this.volume];
  }

  /** Its exhaust opening [deg]. */
  get opensDeg(): number {
    return this.events.exhaust.opensDeg;
  }

  /** Time of its first exhaust opening [s]. */
  get openingTime(): number {
    return timeAt(this.phase, this.opensDeg);
  }

  /**
   * Its events of a turn, from one exhaust opening on: the crank angle of each [deg] and the stage that begins there. The order
   * of stages stands, whichever port an odd engine may open first.
   */
  turn(): readonly { readonly deg: number; readonly begins: Stage }[] {
    const { exhaust, transfers } = this.events;
    return [
      { deg: Math.max(exhaust.opensDeg, transfers.opensDeg), begins: 'transfer' },
      { deg: transfers.closesDeg, begins: 'plugging' },
      { deg: Math.max(exhaust.closesDeg, transfers.closesDeg), begins: 'closed' },
      { deg: exhaust.opensDeg + 360, begins: 'blowdown' },
    ];
  }

  startCold({ time, cylinderPressure, cylinderTemperature }: ColdStart): void {
    this.volume.fill(time, cylinderPressure, cylinderTemperature, 1);
  }

  override openBook(): void {
    this.sums = newSums();
  }

  override book(): void {
    const { sums, volume } = this;
    sums.cylinderWork += volume.work;
    sums.cylinderHeat += volume.wallHeat;
    sums.released += volume.heatReleased;
  }

  /** Has something done whenever a stage begins, before the charge is trapped. */
  watch(watcher: (begins: Stage) => void): void {
    this.watchers.push(watcher);
  }

  /** A stage begins at a time [s]. */
  begin(stage: Stage, time: number): void {
    this.stage = stage;
    for (const watcher of this.watchers) watcher(stage);
    if (stage === 'closed') this.trap(time);
  }

  /** The charge is trapped: one zone again, and what of it is fresh will burn. */
  private trap(time: number): void {
    const { volume, drive, sums } = this;
    volume.merge();
    sums.trapped = volume.mass();
    // Fractions in a cell may pass 0 a little; there is no more fresh gas than gas.
    sums.trappedFresh = Math.max(0, Math.min(sums.trapped, sums.trapped - volume.burntMass()));
    drive.release?.charge(sums.trapped, sums.trappedFresh);
    drive.noteClosing(volume.pressure, volume.meanTemperature, volume.volumeAt(time));
  }
}

/** The law that a case asks for. */
function lawOf(scavenging: Engine['scavenging']): ScavengingLaw {
  switch (scavenging.by) {
    case 'twoZone':
      return new TwoZones(scavenging);
    case 'threeWay':
      return new ThreeWayStream(scavenging);
    case 'table':
      return new MeasuredCurve(scavenging.points);
  }
}

function newSums(): CylinderBook {
  return { trapped: 0, trappedFresh: 0, cylinderWork: 0, released: 0, cylinderHeat: 0 };
}
