/**
 * An exhaust roof that stands higher or lower over speed, as a valve in the port moves it: by how much it is raised at some speeds,
 * straight between them and held beyond the ends. The floor stays; the head stays too, so that the clearance volume is
 * that of the engine with its roofs as stated.
 */

import type { Engine } from '../model/engine.ts';
import type { PortWindow } from '../model/port-window.ts';
import { type Crank, crankOf } from './crank.ts';
import { compressionRatios } from './volume.ts';
import { roofTravel } from './window.ts';

/** How far a window's roof is raised at a speed above where it is stated to stand [rpm, m]. */
export function raiseAt(points: NonNullable<PortWindow['raisedAt']>, rpm: number): number {
  const after = points.findIndex((point) => point.rpm >= rpm);
  if (after <= 0) return points[after === 0 ? 0 : points.length - 1]!.raise;
  const [low, high] = [points[after - 1], points[after]] as [
    (typeof points)[number],
    (typeof points)[number],
  ];
  return low.raise + ((high.raise - low.raise) * (rpm - low.rpm)) / (high.rpm - low.rpm);
}

/** The engine with its exhaust roofs where they stand at a speed [rpm]; the same object where none moves. */
export function engineAt(engine: Engine, rpm: number): Engine {
  const { windows } = engine.exhaust;
  if (windows.every(({ raisedAt }) => raisedAt === undefined)) return engine;
  const crank = crankOf(engine);
  return {
    ...engine,
    exhaust: { ...engine.exhaust, windows: windows.map((window) => standing(window, rpm, crank)) },
    compression: { ratio: compressionRatios(engine).full, basis: 'full' },
  };
}

function standing(window: PortWindow, rpm: number, crank: Crank): PortWindow {
  const { raisedAt, ...fixed } = window;
  if (raisedAt === undefined) return window;
  const raise = raiseAt(raisedAt, rpm);
  return {
    ...fixed,
    roof: { by: 'travel', travel: roofTravel(crank, window) - raise },
    height: window.height === null ? null : window.height + raise,
  };
}
