/** What a dynamometer, a sensor or a probe would show of an engine as it was computed, in the order of the data. */

import { type ObservedSpeed, TRACE_STEP_DEG } from '../work/observed.ts';
import { looseAt } from './looseness.ts';
import type { DataGroup, Datum, Question } from './question.ts';

/** One value a datum; NaN where its speed failed. `scores` are those of what is left free. */
export function predictedData(
  { groups, loose }: Question,
  speeds: readonly ObservedSpeed[],
  scores: readonly number[],
): readonly number[] {
  return groups.flatMap((group) => {
    const { fixed } = group;
    const free = group.loose === null ? fixed : looseAt(loose[group.loose]!, scores[group.loose]!);
    return group.data.map((datum) => shown(group, datum, speeds, free));
  });
}

function shown({ kind }: DataGroup, datum: Datum, speeds: readonly ObservedSpeed[], free: number): number {
  const { speed, watch, x } = datum;
  const at = speed === null ? null : speeds[speed]!;
  switch (kind) {
    case 'torque':
      return free * (at?.row?.torque_nm ?? Number.NaN);
    case 'pressure':
      return turnAt(at?.pressures[watch] ?? [], x + free);
    case 'gas':
      return at?.gas[watch] ?? Number.NaN;
    case 'wall':
      return at === null
        ? meanOf(speeds.map((one) => one.walls[watch] ?? Number.NaN))
        : (at.walls[watch] ?? Number.NaN);
  }
}

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** A value of a turn in even steps at any angle [deg]. */
export function turnAt(turn: readonly number[], deg: number): number {
  const place = (((deg / TRACE_STEP_DEG) % turn.length) + turn.length) % turn.length;
  const k = Math.floor(place);
  const [a = Number.NaN, b = Number.NaN] = [turn[k % turn.length], turn[(k + 1) % turn.length]];
  return a + (place - k) * (b - a);
}

/** By how much the angles of a trace are to be raised for it to lie best on a predicted turn [deg]: least squares, whole steps. */
export function bestOffset(measured: readonly number[], turn: readonly number[]): number {
  const steps = measured.length;
  let best = { offset: 0, miss: Number.POSITIVE_INFINITY };
  for (let k = 0; k < steps; k++) {
    const offset = (k <= steps / 2 ? k : k - steps) * (360 / steps);
    const miss = measured.reduce(
      (sum, value, j) => sum + (value - turnAt(turn, (j * 360) / steps + offset)) ** 2,
      0,
    );
    if (miss < best.miss) best = { offset, miss };
  }
  return best.offset;
}
