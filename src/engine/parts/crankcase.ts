/** The crankcase: the volume below the piston, with Annand's heat to its walls where the cylinder has any. */

import { type Asked, DRIVE, type GasModel, power, Volume } from '../../../solver/index.ts';
import type { Engine } from '../../model/engine.ts';
import { ANNAND_TWO_STROKE } from '../../timing/annand.ts';
import { meanPistonSpeed } from '../../timing/crank.ts';
import { crankcaseSide, type Volumes } from '../../timing/volume.ts';
import type { CrankPhase } from './crank-phase.ts';
import { type ColdStart, EnginePart } from './part.ts';
import { PistonDrive } from './piston-drive.ts';

/** A crankcase that a cold start finds at the end of its compression: pressure over ambient [-], temperature above it [K]. */
const COMPRESSED = { pressure: 1.25, warmer: 30 } as const;

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

  startCold({ time, ambient }: ColdStart): void {
    const { pressure, temperature } = ambient;
    this.volume.fill(time, COMPRESSED.pressure * pressure, temperature + COMPRESSED.warmer, 0);
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

  constructor(engine: Engine, volumes: Volumes, phase: CrankPhase) {
    const { model, coefficient } = engine.cylinderHeat;
    const { wallTemperature } = engine.crankcase;
    const heat = {
      wallTemperature,
      a: model === 'annand' ? coefficient : ANNAND_TWO_STROKE,
      speed: meanPistonSpeed(volumes.crank, phase.rpm),
      bore: engine.bore,
    };
    super(crankcaseSide(volumes), phase, model === 'none' ? null : heat);
  }

  /** Wall of a cube of the crankcase's volume: its real shape is not among the inputs. */
  protected timesWall(asked: Asked): void {
    const wall = 6 * power(asked[DRIVE.volume]!, 2 / 3);
    asked[DRIVE.wallHeat] = asked[DRIVE.wallHeat]! * wall;
  }
}
