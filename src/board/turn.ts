/**
 * One turn of a settled engine, to be played: pressure along the exhaust at every degree, and the way of gas that leaves by
 * the port while the transfers are open, some of it fresh charge. A particle follows dx/dt = u(x, t), straight between cells
 * and degrees; the turn repeats, for gas takes several to leave the pipe.
 */

import { buildEngine } from '../engine/build.ts';
import { CycleRecorder } from '../engine/read/recorder.ts';
import { marchCycle } from '../engine/run/cycle.ts';
import { type EngineState, startFrom } from '../engine/run/state.ts';
import type { Case } from '../model/case.ts';

export interface Turn {
  readonly rpm: number;
  readonly cell: number;
  /** Crank angle of the first row [deg]; a row a degree. */
  readonly opensDeg: number;
  /** Places of the cells from the port's face [mm]. */
  readonly positions: Float32Array;
  /** Pressure, a row a degree [bar]. */
  readonly pressure: Float32Array;
  readonly lowest: number;
  readonly highest: number;
  readonly slugs: readonly Slug[];
}

/** Gas that left the port at a row, and where it is at each degree from then on [mm]. */
export interface Slug {
  readonly leaves: number;
  readonly places: Float32Array;
}

/** Slugs let go while the transfers are open, and turns that they are followed for. */
const SLUGS = 12;
const TURNS = 20;

/** @throws MarchFailure */
export function turnOf(subject: Case, rpm: number, start: EngineState): Turn {
  const engine = buildEngine(subject, rpm, subject.run.cell);
  startFrom(engine, start);
  const recorder = new CycleRecorder(engine);
  marchCycle(engine, recorder);
  const { exhaust, transfers } = engine.schedule.events;
  const { cells, data } = recorder.pressure;
  const velocity = Float32Array.from(recorder.velocity.data);
  const pressure = Float32Array.from(data, (pascal) => pascal / 1e5);
  const flow = { velocity, cells, positions: recorder.positions, seconds: 1 / (6 * rpm) };
  const [from, to] = [transfers.opensDeg - exhaust.opensDeg, transfers.closesDeg - exhaust.opensDeg];
  return {
    rpm,
    cell: subject.run.cell,
    opensDeg: exhaust.opensDeg,
    positions: Float32Array.from(recorder.positions, (metres) => 1000 * metres),
    pressure,
    lowest: pressure.reduce((low, value) => Math.min(low, value), Number.POSITIVE_INFINITY),
    highest: pressure.reduce((high, value) => Math.max(high, value), 0),
    slugs: Array.from({ length: SLUGS }, (_, k) =>
      slugFrom(flow, Math.round(from + ((to - from) * k) / SLUGS)),
    ),
  };
}

interface Flow {
  readonly velocity: Float32Array;
  readonly cells: number;
  readonly positions: Float64Array;
  /** Time of a degree [s]. */
  readonly seconds: number;
}

function slugFrom(flow: Flow, leaves: number): Slug {
  const end = flow.positions.at(-1) ?? 0;
  const places: number[] = [];
  let x = 0;
  for (let degree = leaves; degree < leaves + 360 * TURNS; degree++) {
    places.push(1000 * x);
    // The middle of the degree: half a step first, then a whole one with the speed found there.
    const half = x + 0.5 * flow.seconds * speedAt(flow, degree % 360, x);
    x += flow.seconds * speedAt(flow, (degree % 360) + 0.5, half);
    if (x > end || x < 0) break;
  }
  return { leaves, places: Float32Array.from(places) };
}

function speedAt({ velocity, cells, positions }: Flow, row: number, x: number): number {
  const first = positions[0] ?? 0;
  const pitch = ((positions[cells - 1] ?? 1) - first) / Math.max(1, cells - 1);
  const place = Math.max(0, Math.min(cells - 1.001, (x - first) / pitch));
  const i = Math.floor(place);
  const at = (r: number): number => {
    const left = velocity[r * cells + i] ?? 0;
    return left + (place - i) * ((velocity[r * cells + i + 1] ?? left) - left);
  };
  const r = Math.floor(row);
  return row === r ? at(r) : 0.5 * (at(r) + at(r + 1));
}
