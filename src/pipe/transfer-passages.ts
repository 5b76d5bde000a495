/**
 * The transfer passages as a duct: n alike, side by side, marched as one. Areas and volumes are those of all, the diameter that
 * friction and mixing go by is that of one. Volume of a round taper, V = L (A1 + sqrt(A1 A2) + A2)/3.
 */

import { cellsFor, type DuctGeometry, meshTapers } from '../../solver/index.ts';
import type { Engine } from '../model/engine.ts';
import { diameterOf } from './circle.ts';

type Passage = Engine['transfers']['passage'];

/** Volume of all passages [m3]. */
export function passagesVolume({ length, entryArea, exitArea }: Passage): number {
  return (length / 3) * (entryArea + Math.sqrt(entryArea * exitArea) + exitArea);
}

/** Meshes `count` passages, from the crankcase to the windows, with cells of about a length [m]. */
export function meshPassages(
  { length, entryArea, exitArea }: Passage,
  count: number,
  cell: number,
): DuctGeometry {
  const diameter = [diameterOf(entryArea / count), diameterOf(exitArea / count)] as const;
  const one = meshTapers([{ length, diameter }], cellsFor(length, cell));
  const all = (q: Float64Array): Float64Array => q.map((value) => count * value);
  return { ...one, faceArea: all(one.faceArea), volume: all(one.volume) };
}
