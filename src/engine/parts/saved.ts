/** The state of ducts and volumes as plain data, and its way onto another mesh: by relative position, straight between cell centres. */

import type { MarchingDuct, Volume } from '../../../solver/index.ts';

/** One duct's fields from its left to its right end. */
export interface DuctField {
  readonly pressure: Float64Array;
  readonly temperature: Float64Array;
  readonly velocity: Float64Array;
  readonly burnt: Float64Array;
  readonly wallTemperature: Float64Array;
}

export interface VolumeContent {
  readonly content: Float64Array;
  readonly temperature: Float64Array;
}

export function saveDuct(duct: MarchingDuct): DuctField {
  const view = duct.fields();
  const cut = (q: Float64Array): Float64Array => q.slice(view.offset, view.offset + duct.geometry.cells);
  return {
    pressure: cut(view.p),
    temperature: cut(view.T),
    velocity: cut(view.u),
    burnt: cut(view.y),
    wallTemperature: duct.wallTemperature.slice(),
  };
}

/** Fills the gas of a duct; its walls stay as they are. */
export function restoreDuct(duct: MarchingDuct, field: DuctField): void {
  const { cells } = duct.geometry;
  for (let i = 0; i < cells; i++) {
    const share = (i + 0.5) / cells;
    duct.setCell(
      i,
      fieldAt(field.pressure, share),
      fieldAt(field.temperature, share),
      fieldAt(field.velocity, share),
      fieldAt(field.burnt, share),
    );
  }
}

export function saveVolume(volume: Volume): VolumeContent {
  return { content: volume.now.slice(), temperature: volume.temperature.slice() };
}

export function restoreVolume(volume: Volume, { content, temperature }: VolumeContent, time: number): void {
  volume.temperature.set(temperature);
  volume.restore(time, content);
}

/** Value of a field over the cells at a relative position [-]. */
export function fieldAt(field: Float64Array, share: number): number {
  const place = share * field.length - 0.5;
  const i = Math.max(0, Math.min(field.length - 2, Math.floor(place)));
  const w = Math.max(0, Math.min(1, place - i));
  const before = field[i]!;
  return before + w * (field[i + 1]! - before);
}

/** Fills a duct with gas of one state at rest. */
export function fillDuct(duct: MarchingDuct, pressure: number, temperature: number, burnt: number): void {
  for (let i = 0; i < duct.geometry.cells; i++) duct.setCell(i, pressure, temperature, 0, burnt);
}
