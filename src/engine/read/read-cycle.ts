/** Reads a recorded cycle: the waves at the port, the traced returns, the plug-back, and the output. */

import { type Output, outputOf } from '../../findings/output.ts';
import { type PlugBack, readPlugBack } from '../../findings/plug-back.ts';
import { resample } from '../../findings/resample.ts';
import { type Path, type SpeedFields, tracePath } from '../../findings/trace-path.ts';
import { splitWaves } from '../../findings/waves.ts';
import { type Baffle, reflectorOf } from '../../pipe/places.ts';
import type { EngineNetwork } from '../build.ts';
import type { CycleBook } from './cycle-book.ts';
import { type Gauges, gaugesOf } from './gauges.ts';
import { CHANNEL, type CycleRecorder, FIELD_STEP_DEG } from './recorder.ts';

/** Grid of the read traces [deg]. */
export const TRACE_STEP_DEG = 0.5;

export interface PortTraces {
  readonly portPressure: Float64Array;
  readonly portVelocity: Float64Array;
  readonly outgoing: Float64Array;
  readonly returning: Float64Array;
}

/** Returns of the waves traced to the baffle's start, middle and end, degrees after EO; null: the wave never returns. */
export interface TracedReturns {
  readonly start: number | null;
  readonly middle: number | null;
  readonly end: number | null;
}

export interface CycleReading {
  readonly traces: PortTraces;
  readonly paths: readonly { readonly name: string; readonly out: Path; readonly back: Path }[];
  readonly returns: TracedReturns;
  readonly plugBack: PlugBack;
  readonly output: Output;
  /** Highest Mach number at the passage's exit [-]. */
  readonly machMax: number;
  /** Flow-weighted gas temperature at the flange [K]. */
  readonly flangeTemperature: number;
  readonly gauges: Gauges;
}

/** What reflects the wave, from the port's face [m]. */
export function baffleOf(engine: EngineNetwork): Baffle {
  return reflectorOf(engine.exhaust.sections);
}

export function speedFields(recorder: CycleRecorder): SpeedFields {
  return {
    positions: recorder.positions,
    stepDeg: FIELD_STEP_DEG,
    rows: Math.round(360 / FIELD_STEP_DEG) + 1,
    velocity: recorder.velocity.data,
    sound: recorder.sound.data,
  };
}

/** A channel of the record on the even grid from exhaust opening. */
export function channelOf(recorder: CycleRecorder, channel: number, at: 'mid' | 'end' = 'end'): Float64Array {
  const deg = recorder.channels[at === 'mid' ? CHANNEL.midDeg : CHANNEL.endDeg]!;
  return resample(deg, recorder.channels[channel]!, recorder.steps, TRACE_STEP_DEG);
}

/** Splits the port face's record into its two waves. */
export function portTraces(engine: EngineNetwork, recorder: CycleRecorder): PortTraces {
  const reference = engine.subject.engine.ambient.pressure;
  const n = recorder.steps;
  const [p, u, a, g] = [CHANNEL.portPressure, CHANNEL.portVelocity, CHANNEL.portSound, CHANNEL.portGamma].map(
    (channel) => recorder.channels[channel],
  ) as [Float64Array, Float64Array, Float64Array, Float64Array];
  const outgoing = new Float64Array(n);
  const returning = new Float64Array(n);
  const pair = new Float64Array(2);
  for (let i = 0; i < n; i++) {
    splitWaves(p[i]!, u[i]!, a[i]!, g[i]!, reference, pair);
    outgoing[i] = pair[0]!;
    returning[i] = pair[1]!;
  }
  const deg = recorder.channels[CHANNEL.midDeg]!;
  const even = (values: Float64Array): Float64Array => resample(deg, values, n, TRACE_STEP_DEG);
  return {
    portPressure: even(p),
    portVelocity: even(u),
    outgoing: even(outgoing),
    returning: even(returning),
  };
}

export function readCycle(engine: EngineNetwork, recorder: CycleRecorder, book: CycleBook): CycleReading {
  const { rpm } = engine;
  const traces = portTraces(engine, recorder);
  const fields = speedFields(recorder);
  const baffle = baffleOf(engine);
  const traced = (['start', 'middle', 'end'] as const).map((place) => ({
    name: `baffle ${place}`,
    place,
    path: tracePath(fields, 0, baffle[place], rpm),
  }));
  const returnOf = (place: keyof Baffle): number | null =>
    traced.find((t) => t.place === place)?.path?.back.deg.at(-1) ?? null;
  const returns = { start: returnOf('start'), middle: returnOf('middle'), end: returnOf('end') };
  const plugBack = plugBackOf(engine, traces.returning, returns);
  const output = outputOfBook(engine, book);
  return {
    traces,
    paths: traced.flatMap(({ name, path }) =>
      path === null ? [] : [{ name, out: path.out, back: path.back }],
    ),
    returns,
    plugBack,
    output,
    machMax: highest(recorder, CHANNEL.mach),
    flangeTemperature: flangeTemperature(engine, recorder),
    gauges: gaugesOf(engine, recorder),
  };
}

/** The plug-back of a returning wave on the grid of the traces, by its traced returns. */
export function plugBackOf(engine: EngineNetwork, returning: Float64Array, returns: TracedReturns): PlugBack {
  const { exhaust } = engine.schedule.events;
  const closesDeg = exhaust.closesDeg - exhaust.opensDeg;
  const { pressure: reference } = engine.subject.engine.ambient;
  return readPlugBack(
    { pressure: returning, stepDeg: TRACE_STEP_DEG, reference, closesDeg },
    {
      first: returns.start ?? closesDeg,
      last: returns.end ?? closesDeg,
    },
  );
}

function highest(recorder: CycleRecorder, channel: number): number {
  const values = recorder.channels[channel]!;
  let most = 0;
  for (let i = 0; i < recorder.steps; i++) most = Math.max(most, values[i]!);
  return most;
}

/** Flow-weighted mean gas temperature at the flange [K]. */
function flangeTemperature(
  engine: EngineNetwork,
  { positions, fluxTemperature, flux }: CycleRecorder,
): number {
  const at = engine.subject.engine.passage.length;
  let k = 0;
  positions.forEach((x, i) => {
    if (x <= at) k = i;
  });
  return fluxTemperature[k]! / flux[k]!;
}

/** Output and gas exchange of a cycle's books, or of the means of several cycles' books. */
export function outputOfBook(
  engine: EngineNetwork,
  book: Pick<CycleBook, 'cylinderWork' | 'crankcaseWork' | 'delivered' | 'trapped' | 'trappedFresh'>,
): Output {
  const { subject, rpm, displacement, gas } = engine;
  const { ambient, stroke, friction } = subject.engine;
  return outputOf({
    rpm,
    displacement,
    stroke,
    friction,
    cylinderWork: book.cylinderWork,
    crankcaseWork: book.crankcaseWork,
    delivered: book.delivered,
    trapped: book.trapped,
    trappedFresh: book.trappedFresh,
    reference: (displacement * ambient.pressure) / (gas.gasConstant(0) * ambient.temperature),
  });
}
