/**
 * The state an engine starts from: a plain guess, or the settled state of another run (a neighbouring speed, a coarser
 * mesh), carried over to this mesh by relative position.
 */

import { type PortLink, ReedValve } from '../../../solver/index.ts';
import type { EngineNetwork } from '../build.ts';

/** One duct's primitive fields from its left to its right end. */
export interface DuctField {
  readonly pressure: Float64Array;
  readonly temperature: Float64Array;
  readonly velocity: Float64Array;
  readonly burnt: Float64Array;
}

/** A network's state at exhaust opening. */
export interface EngineState {
  readonly ducts: readonly DuctField[];
  readonly volumes: readonly { readonly content: Float64Array; readonly temperature: Float64Array }[];
  readonly wallTemperatures: readonly Float64Array[];
  readonly reed: readonly [lift: number, speed: number] | null;
  readonly column: number;
}

/** Time of the first exhaust opening [s]. */
export function openingTime(engine: EngineNetwork): number {
  return engine.schedule.events.exhaust.opensDeg / (6 * engine.rpm);
}

/** Guesses that a cold start is made from; the settled answer does not depend on them. */
export interface StartGuess {
  /** Cylinder at exhaust opening [Pa, K]. */
  readonly cylinderPressure: number;
  readonly cylinderTemperature: number;
  /** Gas in the pipe at the flange and at the end [K]. */
  readonly pipeTemperature: number;
  readonly tailTemperature: number;
}

export const USUAL_START: StartGuess = {
  cylinderPressure: 6e5,
  cylinderTemperature: 1600,
  pipeTemperature: 950,
  tailTemperature: 800,
};

/** Fills an engine with a guess at its first exhaust opening. */
export function startCold(engine: EngineNetwork, guess: StartGuess = USUAL_START): void {
  const { pressure, temperature } = engine.subject.engine.ambient;
  const time = openingTime(engine);
  engine.network.time = time;
  const length = engine.exhaust.reduce((sum, e) => sum + e.duct.geometry.length, 0);
  for (const { run, duct } of engine.exhaust) {
    const { cells, dx } = duct.geometry;
    for (let i = 0; i < cells; i++) {
      const share = (run.start + (i + 0.5) * dx) / length;
      duct.setCell(
        i,
        pressure,
        guess.pipeTemperature + share * (guess.tailTemperature - guess.pipeTemperature),
        0,
        1,
      );
    }
  }
  for (const duct of engine.network.ducts) {
    if (engine.exhaust.some((e) => e.duct === duct)) continue;
    const tract = engine.intake.includes(duct);
    for (let i = 0; i < duct.geometry.cells; i++)
      duct.setCell(i, pressure, tract ? temperature : guess.tailTemperature, 0, tract ? 0 : 1);
  }
  for (const volume of engine.network.volumes) {
    if (volume === engine.cylinder) volume.fill(time, guess.cylinderPressure, guess.cylinderTemperature, 1);
    else if (volume === engine.crankcase) volume.fill(time, 1.25 * pressure, temperature + 30, 0);
    else volume.fill(time, pressure, guess.tailTemperature, 1);
  }
  engine.network.touch();
}

/** Copies an engine's present state. */
export function takeState(engine: EngineNetwork): EngineState {
  const { ducts, volumes } = engine.network;
  const reed = reedOf(engine.intakePort);
  return {
    ducts: ducts.map((duct) => {
      const view = duct.fields();
      const cut = (q: Float64Array): Float64Array => q.slice(view.offset, view.offset + duct.geometry.cells);
      return { pressure: cut(view.p), temperature: cut(view.T), velocity: cut(view.u), burnt: cut(view.y) };
    }),
    volumes: volumes.map((v) => ({ content: v.now.slice(), temperature: v.temperature.slice() })),
    wallTemperatures: ducts.map((duct) => duct.wallTemperature.slice()),
    reed: reed === null ? null : [reed.lift, reed.speed],
    column: engine.transfer.column[0] as number,
  };
}

/** Puts a state into an engine at its first exhaust opening. The pressures of the volumes are kept, not their masses. */
export function startFrom(engine: EngineNetwork, state: EngineState): void {
  const { ducts, volumes } = engine.network;
  engine.network.time = openingTime(engine);
  ducts.forEach((duct, d) => {
    const field = state.ducts[d];
    if (field === undefined) return;
    const n = duct.geometry.cells;
    for (let i = 0; i < n; i++) {
      const share = (i + 0.5) / n;
      duct.setCell(
        i,
        at(field.pressure, share),
        at(field.temperature, share),
        at(field.velocity, share),
        at(field.burnt, share),
      );
    }
    const walls = state.wallTemperatures[d];
    if (walls !== undefined && engine.subject.pipe.wall.by === 'balance')
      for (let i = 0; i < n; i++) duct.wallTemperature[i] = at(walls, (i + 0.5) / n);
  });
  volumes.forEach((volume, v) => {
    const from = state.volumes[v];
    if (from === undefined) return;
    volume.temperature.set(from.temperature);
    volume.restore(engine.network.time, from.content);
  });
  const reed = reedOf(engine.intakePort);
  if (reed !== null && state.reed !== null) [reed.lift, reed.speed] = state.reed;
  engine.transfer.column[0] = state.column;
  engine.network.touch();
}

function reedOf(port: PortLink): ReedValve | null {
  return port.opening instanceof ReedValve ? port.opening : null;
}

/** Field value at a relative position, straight between cell centres. */
function at(field: Float64Array, share: number): number {
  const place = share * field.length - 0.5;
  const i = Math.max(0, Math.min(field.length - 2, Math.floor(place)));
  const w = Math.max(0, Math.min(1, place - i));
  const before = field[i] as number;
  return before + w * ((field[i + 1] as number) - before);
}
