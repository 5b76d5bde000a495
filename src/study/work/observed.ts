/**
 * What gauges on an engine would show at some speeds: rows, pressures over crank angle at places, temperatures of gas and
 * wall along the pipe. A speed starts from fields at hand where they are given, and says what else it needs of itself in a
 * sentence where it fails.
 */

import { MarchFailure } from '../../../solver/index.ts';
import { runSpeed } from '../../engine/run/run-speed.ts';
import type { SpeedRecord } from '../../findings/record.ts';
import type { SweepRow } from '../../findings/row.ts';
import type { Case } from '../../model/case.ts';
import type { MeasuredPlace } from '../../model/measured.ts';
import { type KeptState, keptState, stateOf } from './kept-state.ts';

/** What is looked at, at one speed. */
export interface WatchedSpeed {
  readonly rpm: number;
  /** Places of pressure traces. */
  readonly pressures: readonly MeasuredPlace[];
  /** Distances from the flange of temperatures of the gas and of the wall [m]. */
  readonly gas: readonly number[];
  readonly walls: readonly number[];
}

export interface ObservedJob {
  readonly subject: Case;
  readonly speeds: readonly WatchedSpeed[];
  /** Fields to start from, by the place of the speed; null: cold. */
  readonly starts: readonly (KeptState | null)[];
  /** Cycles after which a speed that does not settle is read as it is. */
  readonly mostCycles: number;
}

export interface ObservedSpeed {
  /** Null: it could not be marched. */
  readonly row: SweepRow | null;
  readonly reason: string;
  /** By place, over a turn from top dead centre on in steps of `TRACE_STEP_DEG` [Pa]. */
  readonly pressures: readonly (readonly number[])[];
  readonly gas: readonly number[];
  readonly walls: readonly number[];
  /** Fields at the end, for the next run of an engine like it; null: it failed. */
  readonly state: KeptState | null;
}

export const TRACE_STEP_DEG = 2;
const STEPS = 360 / TRACE_STEP_DEG;

export function runObserved({ subject, speeds, starts, mostCycles }: ObservedJob): readonly ObservedSpeed[] {
  const run = { ...subject.run, maxCycles: Math.min(subject.run.maxCycles, mostCycles) };
  const limited = { ...subject, run };
  return speeds.map((watched, k) => {
    const kept = starts[k] ?? null;
    const start = kept === null ? null : stateOf(kept);
    try {
      const { record, state } = runSpeed({ subject: limited, rpm: watched.rpm, start });
      return { ...observedSpeed(record, watched, subject.engine.passage.length), state: keptState(state) };
    } catch (error) {
      if (!(error instanceof MarchFailure)) throw error;
      return { row: null, reason: error.message, pressures: [], gas: [], walls: [], state: null };
    }
  });
}

function observedSpeed(
  record: SpeedRecord,
  watched: WatchedSpeed,
  flange: number,
): Omit<ObservedSpeed, 'state'> {
  const { positions, streamTemperature = [], wallTemperature } = record.along;
  const alongAt = (values: readonly number[]) => (at: number) => between(positions, values, flange + at);
  return {
    row: record.row,
    reason: '',
    pressures: watched.pressures.map((place) => turnOf(record, place, flange)),
    gas: watched.gas.map(alongAt(streamTemperature)),
    walls: watched.walls.map(alongAt(wallTemperature)),
  };
}

/** Pressure over a turn at a place, to a pascal. */
function turnOf({ traces, diagram }: SpeedRecord, place: MeasuredPlace, flange: number): readonly number[] {
  if (typeof place === 'string') {
    const values = {
      port: traces.portPressure,
      crankcase: traces.crankcasePressure,
      cylinder: traces.cylinderPressure,
    }[place];
    return evenTurn(traces.angleDeg, values);
  }
  const { positions, pressure } = diagram;
  const columns = positions.length;
  const values = diagram.angleDeg.map((_, row) =>
    between(positions, pressure.slice(row * columns, (row + 1) * columns), flange + place),
  );
  return evenTurn(diagram.angleDeg, values);
}

/** Values over even angles that may begin anywhere, from top dead centre on. */
function evenTurn(angles: readonly number[], values: readonly number[]): readonly number[] {
  const first = angles[0] ?? 0;
  return Array.from({ length: STEPS }, (_, k) => {
    const turns = Math.ceil((first - k * TRACE_STEP_DEG) / 360);
    return Math.round(between(angles, values, k * TRACE_STEP_DEG + 360 * turns));
  });
}

/** Straight between ascending places, level beyond their ends. */
function between(at: readonly number[], values: readonly number[], x: number): number {
  const next = at.findIndex((one) => one >= x);
  if (next < 0) return values.at(-1) ?? Number.NaN;
  if (next === 0) return values[0]!;
  const [a, b] = [at[next - 1]!, at[next]!];
  return values[next - 1]! + ((x - a) / (b - a)) * (values[next]! - values[next - 1]!);
}
