/**
 * Volumes that the piston opens and closes, as exact functions of crank angle.
 *
 * Cylinder V = V_c + A s with the piston's area A = πB²/4. A compression ratio over the full stroke gives the clearance
 * V_c = A S/(ε−1); one counted from exhaust closing (trapped) V_c = A s_EC/(ε−1), where s_EC is the travel at which the
 * last exhaust window shuts, a chamfer included: only then is the charge trapped. The crankcase holds its smallest
 * volume at bottom dead centre and A (S − s) more elsewhere.
 */

import type { Engine } from '../model/engine.ts';
import { areaOf } from '../pipe/circle.ts';
import type { Crank } from './crank.ts';
import { crankOf, pistonVelocity, turnIntoTravel } from './crank.ts';
import { firstOpening, windowShape } from './window.ts';

const RADIAN = Math.PI / 180;

export interface Volumes {
  readonly crank: Crank;
  readonly bore: number;
  readonly pistonArea: number;
  /** Volume above the crown at top dead centre [m3]. */
  readonly clearance: number;
  readonly crankcaseSmallest: number;
}

export function volumesOf(engine: Engine): Volumes {
  const crank = crankOf(engine);
  const pistonArea = areaOf(engine.bore);
  const { ratio, basis } = engine.compression;
  return {
    crank,
    bore: engine.bore,
    pistonArea,
    clearance: (pistonArea * (basis === 'full' ? crank.stroke : trappedTravel(engine, crank))) / (ratio - 1),
    crankcaseSmallest: engine.crankcase.volume,
  };
}

/** Travel from top dead centre at which the exhaust shuts [m]. */
export function trappedTravel(engine: Engine, crank: Crank): number {
  const openings = engine.exhaust.windows.map((w) => firstOpening(windowShape(crank, engine.bore, w)));
  return Math.min(...openings);
}

/** Displacement [m3]. */
export function sweptVolume(volumes: Volumes): number {
  return volumes.pistonArea * volumes.crank.stroke;
}

/** One side of the piston: V = least + area (from + sign s) at a travel s from top dead centre. */
export interface PistonSide {
  readonly crank: Crank;
  readonly least: number;
  readonly area: number;
  readonly from: number;
  readonly sign: 1 | -1;
}

export function cylinderSide({ crank, clearance, pistonArea }: Volumes): PistonSide {
  return { crank, least: clearance, area: pistonArea, from: 0, sign: 1 };
}

/** `beside` of the crankcase's volume stands elsewhere [m3]. */
export function crankcaseSide({ crank, crankcaseSmallest, pistonArea }: Volumes, beside = 0): PistonSide {
  return { crank, least: crankcaseSmallest - beside, area: pistonArea, from: crank.stroke, sign: -1 };
}

/** Turns the crank angle in a slot [deg] into the volume on a side of the piston [m3]; boxes no number on the way. */
export function turnIntoVolume(side: PistonSide, slots: Float64Array, slot: number): void {
  turnIntoTravel(side.crank, slots, slot);
  slots[slot] = side.least + side.area * (side.from + side.sign * slots[slot]!);
}

const turned = new Float64Array(1);

/** Volume on a side of the piston [m3]. */
export function volumeOn(side: PistonSide, deg: number): number {
  turned[0] = deg;
  turnIntoVolume(side, turned, 0);
  return turned[0];
}

/** Volume of the cylinder [m3]. */
export function cylinderVolume(volumes: Volumes, deg: number): number {
  return volumeOn(cylinderSide(volumes), deg);
}

/** Its growth with crank angle [m3/deg]. */
export function cylinderVolumeRate(volumes: Volumes, deg: number): number {
  return volumes.pistonArea * pistonVelocity(volumes.crank, deg) * RADIAN;
}

/** Volume of the crankcase with its passages [m3]. */
export function crankcaseVolume(volumes: Volumes, deg: number): number {
  return volumeOn(crankcaseSide(volumes), deg);
}

/**
 * Wall that the cylinder's gas touches when it fills a volume [m2]: crown and head as flat discs, and a liner as tall as the
 * volume over the piston's area. A domed head has a little more.
 */
export function cylinderWall(volumes: Volumes, volume: number): number {
  return 2 * volumes.pistonArea + (4 * volume) / volumes.bore;
}

/** Largest over smallest crankcase volume [-]. */
export function crankcaseCompression(volumes: Volumes): number {
  return 1 + sweptVolume(volumes) / volumes.crankcaseSmallest;
}

/** Compression ratio counted over the full stroke and from exhaust closing [-]. */
export function compressionRatios(engine: Engine): { readonly full: number; readonly trapped: number } {
  const volumes = volumesOf(engine);
  const { clearance, pistonArea, crank } = volumes;
  return {
    full: 1 + sweptVolume(volumes) / clearance,
    trapped: 1 + (pistonArea * trappedTravel(engine, crank)) / clearance,
  };
}
