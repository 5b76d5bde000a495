/**
 * What drives a cylinder's volume: the piston, the burning charge, and heat to the wall by one of two laws: Annand's, as in
 * `piston-drive.ts`, or
 *   Woschni, h = 3.26 B^-0.2 p^0.8 T^-0.55 w^0.8, p in kPa, w = C1 Sp + C2 (Vd Tr/(pr Vr)) (p - pm) (Heywood 1988, eq.
 *     12.19, from memory): C1 = 6.18 while the exhaust is open and 2.28 while it is shut, C2 = 3.24e-3 from ignition to
 *     exhaust opening and nil before; r is the state at exhaust closing, pm = pr (Vr/V)^1.33 that of the motored engine.
 */

import { type Asked, DRIVE, power } from '../../../solver/index.ts';
import type { Engine } from '../../model/engine.ts';
import { meanPistonSpeed } from '../../timing/crank.ts';
import { engineEvents } from '../../timing/events.ts';
import { burnStart } from '../../timing/ignition.ts';
import { cylinderSide, cylinderWall, sweptVolume, type Volumes } from '../../timing/volume.ts';
import type { CrankPhase } from './crank-phase.ts';
import { WiebeRelease } from './heat-release.ts';
import { PistonDrive, type WallHeat } from './piston-drive.ts';

export class CylinderDrive extends PistonDrive {
  readonly release: WiebeRelease | null;
  protected readonly engine: Engine;
  protected readonly volumes: Volumes;
  /** State at the last exhaust closing: pressure, temperature, volume. */
  protected readonly closing = new Float64Array(3);

  constructor(engine: Engine, volumes: Volumes, phase: CrankPhase, heatPerMass: number | null) {
    const { model, coefficient, wallTemperature } = engine.cylinderHeat;
    const speed = meanPistonSpeed(volumes.crank, phase.rpm);
    const heat = { wallTemperature, a: coefficient, speed, bore: engine.bore };
    super(cylinderSide(volumes), phase, model === 'none' ? null : heat);
    this.engine = engine;
    this.volumes = volumes;
    const { opensDeg } = engineEvents(engine).exhaust;
    this.release =
      heatPerMass === null ? null : new WiebeRelease(engine.combustion, phase, heatPerMass, opensDeg);
  }

  protected timesWall(asked: Asked): void {
    const wall = cylinderWall(this.volumes, asked[DRIVE.volume]!);
    asked[DRIVE.wallHeat] = asked[DRIVE.wallHeat]! * wall;
  }

  /** Keeps the state in which the exhaust closed. */
  noteClosing(pressure: number, temperature: number, volume: number): void {
    this.closing[0] = pressure;
    this.closing[1] = temperature;
    this.closing[2] = volume;
  }
}

/** Woschni's C1 while gas is exchanged and while it is not [-], C2 [m/(s K)], and the exponent of the motored engine [-]. */
const WOSCHNI = { exchange: 6.18, shut: 2.28, burning: 3.24e-3, motored: 1.33 } as const;

/** A cylinder with Woschni's heat transfer coefficient. */
class WoschniDrive extends CylinderDrive {
  private readonly displacement: number;
  /** Exhaust opening [deg], and from there to exhaust closing and to ignition [deg]. */
  private readonly opensDeg: number;
  private readonly openFor: number;
  private readonly untilIgnition: number;

  constructor(engine: Engine, volumes: Volumes, phase: CrankPhase, heatPerMass: number | null) {
    super(engine, volumes, phase, heatPerMass);
    const { exhaust } = engineEvents(engine);
    this.displacement = sweptVolume(volumes);
    this.opensDeg = exhaust.opensDeg;
    this.openFor = exhaust.durationDeg;
    this.untilIgnition = 360 + burnStart(engine.combustion, phase.rpm) - exhaust.opensDeg;
  }

  protected override fillCoefficient(asked: Asked, { a, speed, bore }: WallHeat): void {
    const pr = this.closing[0]!;
    const Tr = this.closing[1]!;
    const Vr = this.closing[2]!;
    const pressure = asked[DRIVE.pressure]!;
    const temperature = asked[DRIVE.temperature]!;
    const deg = this.degPerSecond * asked[DRIVE.time]! - this.phaseDeg;
    const turns = (deg - this.opensDeg) / 360;
    const since = 360 * (turns - Math.floor(turns));
    let w = (since < this.openFor ? WOSCHNI.exchange : WOSCHNI.shut) * speed;
    if (since >= this.untilIgnition && pr > 0) {
      const motored = pr * power(Vr / asked[DRIVE.volume]!, WOSCHNI.motored);
      w += Math.max(0, ((WOSCHNI.burning * this.displacement * Tr) / (pr * Vr)) * (pressure - motored));
    }
    const h =
      3.26 * power(bore, -0.2) * power(pressure / 1000, 0.8) * power(temperature, -0.55) * power(w, 0.8);
    asked[DRIVE.wallHeat] = h * a;
  }
}

/** The drive of an engine's cylinder with the law of wall heat that it asks for; heat [J] per fresh mass [kg]. */
export function cylinderDriveOf(
  engine: Engine,
  volumes: Volumes,
  phase: CrankPhase,
  heatPerMass: number | null,
): CylinderDrive {
  const Drive = engine.cylinderHeat.model === 'woschni' ? WoschniDrive : CylinderDrive;
  return new Drive(engine, volumes, phase, heatPerMass);
}
