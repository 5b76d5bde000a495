/**
 * A speed in preview: coarse cells, from the settled fields of the last answer, and a few cycles of patience. It follows the
 * hand; what is held to is computed afterwards on finer cells, from a start of its own.
 */

import { MarchFailure } from '../../solver/index.ts';
import { buildEngine, type EngineNetwork } from '../engine/build.ts';
import { speedRecord } from '../engine/read/speed-record.ts';
import { settle } from '../engine/run/settle.ts';
import type { Strictness } from '../engine/run/settle-limits.ts';
import { type EngineState, startCold, startFrom, takeState } from '../engine/run/state.ts';
import type { Case } from '../model/case.ts';
import { type BoardSpeed, boardSpeed } from './board-speed.ts';

/** Cells of a preview [m]; a case with longer ones keeps its own. */
export const PREVIEW_CELL = 20e-3;

/** Looser than a sweep: the eye cannot tell half a per cent, and the hand goes on. */
const GLANCE: Strictness = {
  minCycles: 3,
  window: 3,
  quiet: { torque: 0.006, trapped: 0.006, plugBackDeg: 0.4, temperature: 1.2, drift: 0.006, wall: 2 },
  swing: null,
  creep: null,
};
const MOST_CYCLES = 14;
/** From a cold start the gas has to find its way down the pipe first. */
const COLD_CYCLES = 12;

export interface Previewed {
  readonly speed: BoardSpeed | null;
  /** What the next preview of this speed may start from. */
  readonly state: EngineState | null;
  /** Why there is no answer; empty where there is one. */
  readonly failure: string;
}

export function preview(subject: Case, rpm: number, start: EngineState | null): Previewed {
  try {
    return glance(subject, rpm, start);
  } catch (error) {
    if (!(error instanceof MarchFailure)) throw error;
    return start === null ? failed(error) : preview(subject, rpm, null);
  }
}

const failed = ({ message }: MarchFailure): Previewed => ({ speed: null, state: null, failure: message });

function glance(subject: Case, rpm: number, start: EngineState | null): Previewed {
  const engine = buildEngine(subject, rpm, subject.run.cell);
  if (start !== null && fits(engine, start)) startFrom(engine, start);
  else {
    startCold(engine);
    settle(engine, { ...GLANCE, minCycles: COLD_CYCLES }, COLD_CYCLES);
  }
  const settled = settle(engine, GLANCE, MOST_CYCLES);
  const state = takeState(engine);
  // The echo's gain would need the pulse of a first cycle, which no figure of the board shows.
  const record = speedRecord(engine, settled, () => Number.NaN, false);
  return { speed: boardSpeed(record), state, failure: '' };
}

/** Whether a state is of an engine with the same parts: a silencer or a step between ducts may have come or gone. */
function fits({ parts }: EngineNetwork, state: EngineState): boolean {
  return (
    parts.length === state.parts.length &&
    parts.every(({ ducts, volumes }, k) => {
      const kept = state.parts[k];
      return kept?.ducts.length === ducts.length && kept.volumes.length === volumes.length;
    })
  );
}
