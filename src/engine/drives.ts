/**
 * The engine's volumes and openings as functions of time, which is all the solver sees of the crank: deg = 6 rpm t with
 * t = 0 at a top dead centre.
 *
 * Heat to the cylinder wall, by one of two laws:
 *   Annand 1963, Nu = a Re^0.7 with bore and mean piston speed; a from memory. His term of radiation, c (T^4 - Tw^4) with c =
 *     4.3e-9 W/(m2 K4), is left out: beside 2000 K gas at 30 bar it is some 3 % of the convection (derived here).
 *   Woschni, h = 3.26 B^-0.2 p^0.8 T^-0.55 w^0.8, p in kPa, w = C1 Sp + C2 (Vd Tr/(pr Vr)) (p - pm) (Heywood 1988, eq.
 *     12.19, from memory): C1 = 6.18 while the exhaust is open and 2.28 while it is shut, C2 = 3.24e-3 from ignition to
 *     exhaust opening and nil before; r is the state at exhaust closing, pm = pr (Vr/V)^1.33 that of the motored engine.
 * The crankcase takes Annand's with its own wall temperature and, unless Annand's a is stated, the usual one.
 */

import {
  type Asked,
  CLOCK,
  type Clock,
  conductivity,
  DRIVE,
  type Opening,
  type Release,
  type VolumeDrive,
  viscosity,
} from '../../solver/index.ts';
import type { Engine } from '../model/engine.ts';
import type { Discharge } from '../model/port-window.ts';
import { ANNAND_TWO_STROKE } from '../timing/annand.ts';
import { meanPistonSpeed } from '../timing/crank.ts';
import { engineEvents } from '../timing/events.ts';
import type { PortTable } from '../timing/schedule.ts';
import { samplePort } from '../timing/schedule.ts';
import {
  crankcaseSide,
  cylinderSide,
  cylinderWall,
  type PistonSide,
  sweptVolume,
  turnIntoVolume,
  type Volumes,
} from '../timing/volume.ts';
import { burntShare } from '../timing/wiebe.ts';

/** Heat to a wall: its temperature [K], Annand's coefficient a [-], mean piston speed [m/s] and bore [m]. */
interface WallHeat {
  readonly wallTemperature: number;
  readonly a: number;
  readonly speed: number;
  readonly bore: number;
}

/** A volume on one side of the piston. */
abstract class PistonDrive implements VolumeDrive {
  abstract readonly release: Release | null;
  private readonly side: PistonSide;
  protected readonly degPerSecond: number;
  private readonly heat: WallHeat | null;

  constructor(side: PistonSide, rpm: number, heat: WallHeat | null) {
    this.side = side;
    this.degPerSecond = 6 * rpm;
    this.heat = heat;
  }

  /** Wall that the gas touches when it fills a volume [m2]. */
  protected abstract wallAround(volume: number): number;

  fillVolume(asked: Asked): void {
    asked[DRIVE.volume] = this.degPerSecond * (asked[DRIVE.time] as number);
    turnIntoVolume(this.side, asked, DRIVE.volume);
  }

  fillWallHeat(asked: Asked): void {
    const { heat } = this;
    asked[DRIVE.wallHeat] = 0;
    if (heat === null) return;
    this.fillCoefficient(asked, heat);
    const h = asked[DRIVE.wallHeat] as number;
    const area = this.wallAround(asked[DRIVE.volume] as number);
    asked[DRIVE.wallHeat] = h * area * (heat.wallTemperature - (asked[DRIVE.temperature] as number));
  }

  /** Fills the heat transfer coefficient, Annand's, where the heat will stand [W/(m2 K)]. */
  protected fillCoefficient(asked: Asked, { a, speed, bore }: WallHeat): void {
    const temperature = asked[DRIVE.temperature] as number;
    const reynolds = ((asked[DRIVE.density] as number) * speed * bore) / viscosity(temperature);
    asked[DRIVE.wallHeat] = (a * conductivity(temperature) * reynolds ** 0.7) / bore;
  }
}

export class CylinderDrive extends PistonDrive {
  readonly release: WiebeRelease | null;
  protected readonly engine: Engine;
  protected readonly volumes: Volumes;
  /** State at the last exhaust closing: pressure, temperature, volume. */
  protected readonly closing = new Float64Array(3);

  constructor(engine: Engine, volumes: Volumes, rpm: number, heatPerMass: number | null) {
    const { model, coefficient, wallTemperature } = engine.cylinderHeat;
    const speed = meanPistonSpeed(volumes.crank, rpm);
    const heat = { wallTemperature, a: coefficient, speed, bore: engine.bore };
    super(cylinderSide(volumes), rpm, model === 'none' ? null : heat);
    this.engine = engine;
    this.volumes = volumes;
    this.release = heatPerMass === null ? null : new WiebeRelease(engine, rpm, heatPerMass);
  }

  protected wallAround(volume: number): number {
    return cylinderWall(this.volumes, volume);
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

  constructor(engine: Engine, volumes: Volumes, rpm: number, heatPerMass: number | null) {
    super(engine, volumes, rpm, heatPerMass);
    const { exhaust } = engineEvents(engine);
    this.displacement = sweptVolume(volumes);
    this.opensDeg = exhaust.opensDeg;
    this.openFor = exhaust.durationDeg;
    this.untilIgnition = 360 + engine.combustion.startDeg - exhaust.opensDeg;
  }

  protected override fillCoefficient(asked: Asked, { a, speed, bore }: WallHeat): void {
    const pr = this.closing[0] as number;
    const Tr = this.closing[1] as number;
    const Vr = this.closing[2] as number;
    const pressure = asked[DRIVE.pressure] as number;
    const temperature = asked[DRIVE.temperature] as number;
    const turns = (this.degPerSecond * (asked[DRIVE.time] as number) - this.opensDeg) / 360;
    const since = 360 * (turns - Math.floor(turns));
    let w = (since < this.openFor ? WOSCHNI.exchange : WOSCHNI.shut) * speed;
    if (since >= this.untilIgnition && pr > 0) {
      const motored = pr * (Vr / (asked[DRIVE.volume] as number)) ** WOSCHNI.motored;
      w += Math.max(0, ((WOSCHNI.burning * this.displacement * Tr) / (pr * Vr)) * (pressure - motored));
    }
    const h = 3.26 * bore ** -0.2 * (pressure / 1000) ** 0.8 * temperature ** -0.55 * w ** 0.8;
    asked[DRIVE.wallHeat] = h * a;
  }
}

/** The drive of an engine's cylinder with the law of wall heat that it asks for; heat [J] per fresh mass [kg]. */
export function cylinderDriveOf(
  engine: Engine,
  volumes: Volumes,
  rpm: number,
  heatPerMass: number | null,
): CylinderDrive {
  const Drive = engine.cylinderHeat.model === 'woschni' ? WoschniDrive : CylinderDrive;
  return new Drive(engine, volumes, rpm, heatPerMass);
}

/** Cumulative burnt share over all turns, each burning completely; grows by one a turn. */
export class WiebeRelease implements Release {
  /** Set at each exhaust closing [kg]. */
  freshMass = 0;
  readonly heatPerMass: number;
  private readonly combustion: Engine['combustion'];
  private readonly rpm: number;
  /** Burnt share at the end of the burn [-]. */
  private readonly whole: number;

  constructor(engine: Engine, rpm: number, heatPerMass: number) {
    const { wiebeEfficiency, wiebeExponent } = engine.combustion;
    this.combustion = engine.combustion;
    this.rpm = rpm;
    this.heatPerMass = heatPerMass;
    this.whole = burntShare(1, wiebeEfficiency, wiebeExponent);
  }

  fillBurntShare(asked: Asked): void {
    const { startDeg, durationDeg, wiebeEfficiency, wiebeExponent } = this.combustion;
    const since = (6 * this.rpm * (asked[DRIVE.time] as number) - startDeg) / 360;
    const turn = Math.floor(since);
    const z = ((since - turn) * 360) / durationDeg;
    asked[DRIVE.burntShare] = turn + burntShare(z, wiebeEfficiency, wiebeExponent) / this.whole;
  }
}

/** The crankcase, with Annand's law where the cylinder has any. */
export class CrankcaseDrive extends PistonDrive {
  readonly release = null;

  constructor(engine: Engine, volumes: Volumes, rpm: number) {
    const { model, coefficient } = engine.cylinderHeat;
    const { wallTemperature } = engine.crankcase;
    const speed = meanPistonSpeed(volumes.crank, rpm);
    const heat = {
      wallTemperature,
      a: model === 'annand' ? coefficient : ANNAND_TWO_STROKE,
      speed,
      bore: engine.bore,
    };
    super(crankcaseSide(volumes), rpm, model === 'none' ? null : heat);
  }

  /** Wall of a cube of the crankcase's volume: its real shape is not among the inputs. */
  protected wallAround(volume: number): number {
    return 6 * volume ** (2 / 3);
  }
}

/** A port in the cylinder wall: table times a discharge coefficient that grows from crack to full opening. */
export class PortOpening implements Opening {
  areaOut = 0;
  areaIn = 0;
  private readonly table: PortTable;
  private readonly degPerSecond: number;
  private readonly crackOut: number;
  private readonly gainOut: number;
  private readonly crackIn: number;
  private readonly gainIn: number;

  /** `out` and `in` of the discharge are the cylinder's; `fromCylinder` false swaps them for a link that starts elsewhere. */
  constructor(table: PortTable, discharge: Discharge, rpm: number, fromCylinder: boolean) {
    this.table = table;
    this.degPerSecond = 6 * rpm;
    const { outCrack, outFull, inCrack, inFull } = discharge;
    this.crackOut = fromCylinder ? outCrack : inCrack;
    this.gainOut = ((fromCylinder ? outFull : inFull) - this.crackOut) / table.full;
    this.crackIn = fromCylinder ? inCrack : outCrack;
    this.gainIn = ((fromCylinder ? inFull : outFull) - this.crackIn) / table.full;
  }

  set(clock: Clock): void {
    const area = samplePort(this.table, this.degPerSecond * (clock[CLOCK.stage] as number));
    this.areaOut = area * (this.crackOut + this.gainOut * area);
    this.areaIn = area * (this.crackIn + this.gainIn * area);
  }
}
