/**
 * The engine's volumes and openings as functions of time, which is all the solver sees of the crank: deg = 6 rpm t with
 * t = 0 at a top dead centre.
 *
 * Heat to the cylinder wall: Annand, Nu = a Re^0.7 with bore and mean piston speed (Annand 1963; a from memory), or
 * Woschni, h = 3.26 B^-0.2 p^0.8 T^-0.55 w^0.8 with p in kPa and w = C1 Sp + C2 (Vd Tr/(pr Vr)) (p - pm) (Heywood 1988,
 * eq. 12.19, from memory). The crankcase takes Annand's with its own wall temperature.
 */

import type { Opening, VolumeDrive } from '../../../solver/index.ts';
import { conductivity, viscosity } from '../../../solver/index.ts';
import type { Discharge, Engine } from '../../case/model.ts';
import { meanPistonSpeed } from '../../timing/crank.ts';
import type { PortTable } from '../../timing/schedule.ts';
import { samplePort } from '../../timing/schedule.ts';
import {
  crankcaseVolume,
  cylinderSurface,
  cylinderVolume,
  sweptVolume,
  type Volumes,
} from '../../timing/volume.ts';
import { burntShare } from '../../timing/wiebe.ts';

/** Heat per fresh mass is set once; the fresh mass at each exhaust closing. */
export interface Release {
  burntShare(time: number): number;
  freshMass: number;
  readonly heatPerMass: number;
}

export class CylinderDrive implements VolumeDrive {
  readonly release: Release | null;
  private readonly volumes: Volumes;
  private readonly engine: Engine;
  private readonly degPerSecond: number;
  private readonly pistonSpeed: number;
  /** State at the last exhaust closing, for Woschni's combustion term: pressure, temperature, volume. */
  private readonly closing = new Float64Array(3);

  constructor(engine: Engine, volumes: Volumes, rpm: number, heatPerMass: number | null) {
    this.engine = engine;
    this.volumes = volumes;
    this.degPerSecond = 6 * rpm;
    this.pistonSpeed = meanPistonSpeed(volumes.crank, rpm);
    this.release = heatPerMass === null ? null : releaseOf(engine, rpm, heatPerMass);
  }

  volume(time: number): number {
    return cylinderVolume(this.volumes, this.degPerSecond * time);
  }

  /** Keeps the state in which the exhaust closed. */
  noteClosing(pressure: number, temperature: number, volume: number): void {
    this.closing[0] = pressure;
    this.closing[1] = temperature;
    this.closing[2] = volume;
  }

  wallHeat(time: number, pressure: number, temperature: number, density: number): number {
    const { model, wallTemperature, coefficient } = this.engine.cylinderHeat;
    if (model === 'none') return 0;
    const area = cylinderSurface(this.volumes, this.degPerSecond * time);
    const h =
      model === 'annand'
        ? annand(coefficient, temperature, density, this.pistonSpeed, this.engine.bore)
        : this.woschni(time, pressure, temperature) * coefficient;
    return h * area * (wallTemperature - temperature);
  }

  private woschni(time: number, pressure: number, temperature: number): number {
    const [pr, Tr, Vr] = this.closing as unknown as [number, number, number];
    const deg = (this.degPerSecond * time) % 360;
    const burning = deg > 360 + this.engine.combustion.startDeg || deg < 90;
    let w = (burning ? 2.28 : 6.18) * this.pistonSpeed;
    if (burning && pr > 0) {
      const motored = pr * (Vr / this.volume(time)) ** 1.33;
      w += Math.max(0, ((3.24e-3 * sweptVolume(this.volumes) * Tr) / (pr * Vr)) * (pressure - motored));
    }
    return 3.26 * this.engine.bore ** -0.2 * (pressure / 1000) ** 0.8 * temperature ** -0.55 * w ** 0.8;
  }
}

/** Annand's heat transfer coefficient [W/(m2 K)]. */
export function annand(a: number, temperature: number, density: number, speed: number, bore: number): number {
  const reynolds = (density * speed * bore) / viscosity(temperature);
  return (a * conductivity(temperature) * reynolds ** 0.7) / bore;
}

/** Cumulative burnt share over all turns, each burning completely; grows by one a turn. */
function releaseOf(engine: Engine, rpm: number, heatPerMass: number): Release {
  const { startDeg, durationDeg, wiebeEfficiency, wiebeExponent } = engine.combustion;
  const whole = burntShare(1, wiebeEfficiency, wiebeExponent);
  return {
    burntShare(time: number): number {
      const since = (6 * rpm * time - startDeg) / 360;
      const turn = Math.floor(since);
      const z = ((since - turn) * 360) / durationDeg;
      return turn + burntShare(z, wiebeEfficiency, wiebeExponent) / whole;
    },
    freshMass: 0,
    heatPerMass,
  };
}

export function crankcaseDrive(engine: Engine, volumes: Volumes, rpm: number): VolumeDrive {
  const speed = meanPistonSpeed(volumes.crank, rpm);
  const { coefficient, model } = engine.cylinderHeat;
  const warm = model !== 'none';
  const a = model === 'annand' ? coefficient : 0.26;
  return {
    release: null,
    volume: (time) => crankcaseVolume(volumes, 6 * rpm * time),
    wallHeat: (time, _pressure, temperature, density) => {
      if (!warm) return 0;
      // Wall of a cube of the crankcase's volume: its real shape is not among the inputs.
      const area = 6 * crankcaseVolume(volumes, 6 * rpm * time) ** (2 / 3);
      const h = annand(a, temperature, density, speed, engine.bore);
      return h * area * (engine.crankcase.wallTemperature - temperature);
    },
  };
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

  set(time: number): void {
    const area = samplePort(this.table, this.degPerSecond * time);
    this.areaOut = area * (this.crackOut + this.gainOut * area);
    this.areaIn = area * (this.crackIn + this.gainIn * area);
  }
}
