/**
 * The state an engine starts from: a plain guess, or the settled state of another run (a neighbouring speed, a coarser
 * mesh), carried over to this mesh by relative position.
 */

import type { EngineNetwork } from '../build.ts';
import type { PartState, StartGuess } from '../parts/part.ts';

/** A network's state at exhaust opening, part by part. */
export interface EngineState {
  readonly parts: readonly PartState[];
}

export const USUAL_START: StartGuess = {
  cylinderPressure: 6e5,
  cylinderTemperature: 1600,
  pipeTemperature: 950,
  tailTemperature: 800,
};

/** Fills an engine with a guess at its first exhaust opening. */
export function startCold(engine: EngineNetwork, guess: StartGuess = USUAL_START): void {
  const { network, subject, cylinder, parts } = engine;
  network.time = cylinder.openingTime;
  const start = { ...guess, time: network.time, ambient: subject.engine.ambient };
  for (const part of parts) part.startCold(start);
  network.touch();
}

/** Copies an engine's present state. */
export function takeState(engine: EngineNetwork): EngineState {
  return { parts: engine.parts.map((part) => part.save()) };
}

/** Puts a state into an engine at its first exhaust opening: the gas in the ducts by pressure, in the volumes by content. */
export function startFrom(engine: EngineNetwork, state: EngineState): void {
  const { network, cylinder, parts } = engine;
  network.time = cylinder.openingTime;
  parts.forEach((part, k) => {
    const kept = state.parts[k];
    if (kept !== undefined) part.restore(kept, network.time);
  });
  network.touch();
}
