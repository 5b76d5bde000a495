/**
 * What a builder can measure beside a pipe: temperature of the gas, as a probe in the stream has it, and of the wall at the
 * middle of the header, of the belly and of the stinger; the mean pressure where the stinger begins, which a gauge behind a damped
 * line shows; and the lowest and highest pressure in the crankcase. Of one cycle.
 */

import { stagesOf } from '../../pipe/places.ts';
import type { EngineNetwork } from '../build.ts';
import { CHANNEL, type CycleRecorder } from './recorder.ts';

/** Temperatures [K], weighted by the flow for the gas; NaN where the pipe has no such section. */
export interface Spot {
  readonly gas: number;
  readonly wall: number;
}

export interface Gauges {
  readonly header: Spot;
  readonly belly: Spot;
  readonly stinger: Spot;
  /** Mean pressure where the stinger begins, above the surroundings [Pa]. */
  readonly stingerBackPressure: number;
  /** Lowest and highest pressure in the crankcase [Pa]. */
  readonly crankcase: readonly [lowest: number, highest: number];
}

export function gaugesOf(engine: EngineNetwork, recorder: CycleRecorder): Gauges {
  const { sections } = engine.exhaust;
  const spot = (role: 'header' | 'belly' | 'stinger'): Spot => {
    const stages = stagesOf(sections, role);
    const [first, last] = [stages[0], stages.at(-1)];
    if (first === undefined || last === undefined) return { gas: Number.NaN, wall: Number.NaN };
    return spotAt(engine, recorder, (first.start + last.end) / 2);
  };
  const [stinger] = stagesOf(sections, 'stinger');
  return {
    header: spot('header'),
    belly: spot('belly'),
    stinger: spot('stinger'),
    stingerBackPressure:
      stinger === undefined
        ? Number.NaN
        : meanPressure(recorder, stinger.start) - engine.subject.engine.ambient.pressure,
    crankcase: rangeOf(recorder, CHANNEL.crankcasePressure),
  };
}

function spotAt(engine: EngineNetwork, recorder: CycleRecorder, at: number): Spot {
  const k = cellAt(recorder, at);
  const gas = recorder.fluxTemperature[k]! / recorder.flux[k]!;
  let before = 0;
  for (const { duct } of engine.exhaust.pieces) {
    const { cells } = duct.geometry;
    if (k < before + cells) return { gas, wall: duct.wallTemperature[k - before]! };
    before += cells;
  }
  return { gas, wall: Number.NaN };
}

/** The cell whose middle is nearest to a place [m]. */
function cellAt({ positions }: CycleRecorder, at: number): number {
  let best = 0;
  for (let k = 1; k < positions.length; k++)
    if (Math.abs(positions[k]! - at) < Math.abs(positions[best]! - at)) best = k;
  return best;
}

/** Mean over the cycle of the pressure at a place [Pa]; the last row stands where the first does, a turn later. */
function meanPressure(recorder: CycleRecorder, at: number): number {
  const k = cellAt(recorder, at);
  const { rows, cells, data } = recorder.pressure;
  let sum = 0;
  for (let row = 0; row < rows - 1; row++) sum += data[row * cells + k]!;
  return sum / (rows - 1);
}

function rangeOf(recorder: CycleRecorder, channel: number): readonly [number, number] {
  const values = recorder.channels[channel]!;
  let [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < recorder.steps; i++) {
    lowest = Math.min(lowest, values[i]!);
    highest = Math.max(highest, values[i]!);
  }
  return [lowest, highest];
}
