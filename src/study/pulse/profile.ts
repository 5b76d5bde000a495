/** The whole duct at one moment, at the centres of the cells; the length of an end correction is left out. */

import { PROBE } from './probe-values.ts';
import type { ProfileRecord } from './result.ts';
import type { Stretch } from './stretch.ts';

export function profileOf(stretches: readonly Stretch[], time: number): ProfileRecord {
  const positions: number[] = [];
  const columns: number[][] = [[], [], [], []];
  const state = new Float64Array(4);
  for (const { duct, origin, start, end } of stretches) {
    const { cells, dx } = duct.geometry;
    for (let i = 0; i < cells; i++) {
      const position = origin + (i + 0.5) * dx;
      if (position < start || position > end) continue;
      duct.probe((i + 0.5) * dx, state);
      positions.push(position);
      columns.forEach((column, k) => void column.push(state[k]!));
    }
  }
  return {
    time,
    positions,
    pressure: columns[PROBE.pressure]!,
    velocity: columns[PROBE.velocity]!,
    temperature: columns[PROBE.temperature]!,
    density: columns[PROBE.density]!,
  };
}
