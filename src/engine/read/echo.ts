/**
 * The echo: the part of the plug-back that lands on the closed port, runs out again and comes back a second time; and how
 * much stronger the settled pulse is than the pulse of a first cycle. The first cycle's is found by letting the same
 * cylinder, as it is at exhaust opening, blow down into the same hot gas at rest under ambient pressure.
 */

import type { MarchingDuct } from '../../../solver/index.ts';
import type { PlugBack } from '../../findings/plug-back.ts';
import { tracePath } from '../../findings/trace-path.ts';
import { splitWaves } from '../../findings/waves.ts';
import type { Baffle } from '../../pipe/places.ts';
import type { EngineNetwork } from '../build.ts';
import { portTraces, speedFields, TRACE_STEP_DEG } from './read-cycle.ts';
import { CHANNEL, type CycleRecorder } from './recorder.ts';

/** Share of its peak below which a first pulse is past [-]. */
const PAST = 0.3;
const waves = new Float64Array(2);

/** Second return of the wave that leaves the closed port with the plug-back's peak, degrees after EO; null: it never comes. */
export function echoReturn(
  engine: EngineNetwork,
  recorder: CycleRecorder,
  plugBack: PlugBack,
  baffle: Baffle,
): number | null {
  const { exhaust } = engine.schedule.events;
  const closes = exhaust.closesDeg - exhaust.opensDeg;
  const { peakDeg } = plugBack;
  const from = peakDeg === null ? closes : Math.max(peakDeg, closes);
  return tracePath(speedFields(recorder), from, baffle.middle, engine.rpm)?.back.deg.at(-1) ?? null;
}

/** Peak of the outgoing wave between exhaust opening and transfer closing [Pa]. */
export function outgoingPeak(engine: EngineNetwork, outgoing: Float64Array): number {
  const { exhaust, transfers } = engine.schedule.events;
  const last = Math.round((transfers.closesDeg - exhaust.opensDeg) / TRACE_STEP_DEG);
  let peak = 0;
  for (let k = 0; k <= last && k < outgoing.length; k++) peak = Math.max(peak, outgoing[k]!);
  return peak;
}

/**
 * Outgoing peak of a first cycle [Pa]. The engine is at an exhaust opening and is used up: it ends at the next transfer closing.
 * @throws MarchFailure
 */
export function firstPulsePeak(engine: EngineNetwork, recorder: CycleRecorder): number {
  const { network, rpm, schedule, subject } = engine;
  for (const { duct } of engine.exhaust.pieces) quieten(duct, subject.engine.ambient.pressure);
  network.touch();
  const span = schedule.events.transfers.closesDeg - schedule.events.exhaust.opensDeg;
  const until = network.time + span / (6 * rpm);
  recorder.begin(6 * rpm * network.time);
  let peak = 0;
  while (until - network.time > 1e-12 * until) {
    network.step(until - network.time);
    recorder.note(network.clock);
    const rise = outgoingNow(recorder, subject.engine.ambient.pressure) - subject.engine.ambient.pressure;
    peak = Math.max(peak, rise);
    // The pulse is past: what follows is its tail.
    if (rise < PAST * peak) break;
  }
  return outgoingPeak(engine, portTraces(engine, recorder).outgoing);
}

/** Pressure of the outgoing wave at the port in the last step noted [Pa]. */
function outgoingNow({ channels, steps }: CycleRecorder, reference: number): number {
  const last = (channel: number): number => channels[channel]![steps - 1]!;
  const { portPressure, portVelocity, portSound, portGamma } = CHANNEL;
  splitWaves(last(portPressure), last(portVelocity), last(portSound), last(portGamma), reference, waves);
  return waves[0]!;
}

function quieten(duct: MarchingDuct, pressure: number): void {
  const { T, y, offset } = duct.fields();
  for (let i = 0; i < duct.geometry.cells; i++) duct.setCell(i, pressure, T[i + offset]!, 0, y[i + offset]!);
}
