/**
 * The crankcase: the volume below the piston, with Annand's heat to its walls where the cylinder has any. Passages that are ducts of
 * their own are taken out of the volume that includes them; their walls stay with it, since they have no heat of their own.
 */

import { type Asked, DRIVE, type GasModel, power, Volume } from '../../../solver/index.ts';
import type { Engine } from '../../model/engine.ts';
import { passagesVolume } from '../../pipe/transfer-passages.ts';
import { ANNAND_TWO_STROKE } from '../../timing/annand.ts';
import { meanPistonSpeed } from '../../timing/crank.ts';
import { crankcaseSide, type Volumes } from '../../timing/volume.ts';
import type { CrankPhase } from './crank-phase.ts';
import { type ColdStart, EnginePart } from './part.ts';
import { PistonDrive } from './piston-drive.ts';

/** A crankcase that a cold start finds at the end of its compression: pressure over ambient [-], temperature above it [K]. */
const COMPRESSED = { pressure: 1.25, warmer: 30 } as const;

/** The charge that a cold start finds below the piston [Pa, K]. */
export function compressedCharge({ ambient }: ColdStart): { pressure: number; temperature: number } {
  const { pressure, temperature } = ambient;
  return { pressure: COMPRESSED.pressure * pressure, temperature: temperature + COMPRESSED.warmer };
}

export interface CrankcaseBook {
  /** Work of its gas on the piston [J]. */
  crankcaseWork: number;
}

export class Crankcase extends EnginePart {
  readonly volume: Volume;
  override readonly volumes: readonly Volume[];
  sums = newSums();

  constructor(engine: Engine, volumes: Volumes, gas: GasModel, phase: CrankPhase) {
    super();
    this.volume = new Volume('crankcase', gas, new CrankcaseDrive(engine, volumes, phase));
    this.volumes = [this.volume];
  }

  startCold(start: ColdStart): void {
    const { pressure, temperature } = compressedCharge(start);
    this.volume.fill(start.time, pressure, temperature, 0);
  }

  override openBook(): void {
    this.sums = newSums();
  }

  override book(): void {
    this.sums.crankcaseWork += this.volume.work;
  }
}

function newSums(): CrankcaseBook {
  return { crankcaseWork: 0 };
}

class CrankcaseDrive extends PistonDrive {
  readonly release = null;
  /** Volume of passages that are ducts of their own [m3]. */
  private readonly beside: number;

  constructor(engine: Engine, volumes: Volumes, phase: CrankPhase) {
    const { model, coefficient } = engine.cylinderHeat;
    const { wallTemperature } = engine.crankcase;
    const heat = {
      wallTemperature,
      a: model === 'annand' ? coefficient : ANNAND_TWO_STROKE,
      speed: meanPistonSpeed(volumes.crank, phase.rpm),
      bore: engine.bore,
    };
    const { passage } = engine.transfers;
    const beside = passage.as === 'duct' ? passagesVolume(passage) : 0;
    super(crankcaseSide(volumes, beside), phase, model === 'none' ? null : heat);
    this.beside = beside;
  }

  /** Wall of a cube of the crankcase's volume: its real shape is not among the inputs. */
  protected timesWall(asked: Asked): void {
    const wall = 6 * power(asked[DRIVE.volume]! + this.beside, 2 / 3);
    asked[DRIVE.wallHeat] = asked[DRIVE.wallHeat]! * wall;
  }
}
