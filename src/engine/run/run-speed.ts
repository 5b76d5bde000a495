/**
 * One speed from start to row: settle (on a coarser mesh first where there is no neighbour to start from), read the last
 * cycles, follow the echo, and find the first cycle's pulse to compare with.
 */

import { MarchFailure } from '../../../solver/index.ts';
import type { SpeedRecord } from '../../findings/record.ts';
import type { Case } from '../../model/case.ts';
import { buildEngine, type EngineNetwork } from '../build.ts';
import type { StartGuess } from '../parts/part.ts';
import { firstPulsePeak } from '../read/echo.ts';
import { speedRecord } from '../read/speed-record.ts';
import type { Settled } from '../read/window.ts';
import { settle } from './settle.ts';
import { STRICT, USUAL } from './settle-limits.ts';
import { type EngineState, startCold, startFrom, takeState, USUAL_START } from './state.ts';

/**
 * Meshes of a cold start, as multiples of the wanted cell: twice as coarse is a quarter of the work a cycle. Where a coarse
 * march fails, the wanted mesh is tried from the guess itself.
 */
const START_MESHES = [2, 1] as const;
/** Courant numbers, as shares of the wanted one, that a speed is tried with before it is called a failure. */
const COURANT_SHARES = [1, 0.5] as const;
/** Cycles on the coarser mesh; it need not settle. */
const COARSE_CYCLES = 14;
export interface SpeedInput {
  readonly subject: Case;
  readonly rpm: number;
  /** Settled state of a neighbour; null: start cold. */
  readonly start: EngineState | null;
  readonly guess?: StartGuess;
  /** Leave out traces and diagram: for studies of many drafts. */
  readonly brief?: boolean;
}

export interface SpeedOutcome {
  readonly record: SpeedRecord;
  readonly state: EngineState;
}

/** A state to start a wanted mesh from, found on a coarser one where that can be marched. @throws MarchFailure */
export function coarseState(subject: Case, rpm: number, guess: StartGuess = USUAL_START): EngineState {
  return firstThatMarches(START_MESHES, (coarser) => {
    const engine = buildEngine(subject, rpm, coarser * subject.run.cell);
    startCold(engine, guess);
    settle(engine, { ...USUAL, minCycles: COARSE_CYCLES }, Math.min(COARSE_CYCLES, subject.run.maxCycles));
    return takeState(engine);
  });
}

/**
 * Runs one speed. A march that fails is tried again: from a cold start where it began with a neighbour's state, then with a
 * smaller Courant number. @throws MarchFailure
 */
export function runSpeed(input: SpeedInput): SpeedOutcome {
  const { subject, start } = input;
  return firstThatMarches(COURANT_SHARES, (share) => {
    const courant = share * subject.run.courant;
    const cautious = share === 1 ? subject : { ...subject, run: { ...subject.run, courant } };
    const starts = share === 1 && start !== null ? [start, null] : [null];
    const outcome = firstThatMarches(starts, (from) =>
      marchSpeed({ ...input, subject: cautious, start: from }),
    );
    if (share === 1) return outcome;
    const note = `Computed with a Courant number of ${Number(courant.toPrecision(3))}: with ${subject.run.courant} the march failed.`;
    return { ...outcome, record: { ...outcome.record, notes: [note, ...outcome.record.notes] } };
  });
}

/** What the first of some attempts gives that does not fail; the failure of the last if none. @throws MarchFailure */
function firstThatMarches<A, T>(ways: readonly A[], attempt: (way: A) => T): T {
  for (const way of ways.slice(0, -1)) {
    try {
      return attempt(way);
    } catch (error) {
      if (!(error instanceof MarchFailure)) throw error;
    }
  }
  return attempt(ways.at(-1) as A);
}

function marchSpeed(input: SpeedInput): SpeedOutcome {
  const { subject, rpm } = input;
  const engine = buildEngine(subject, rpm, subject.run.cell);
  startFrom(engine, input.start ?? coarseState(subject, rpm, input.guess));
  const strictness = subject.run.scheme === 'mesh' ? STRICT : USUAL;
  const settled = settle(engine, strictness, subject.run.maxCycles);
  const state = takeState(engine);
  const record = speedRecord(engine, settled, firstPulse(engine, settled), input.brief ?? false);
  return { record, state };
}

/** Outgoing peak of a first cycle [Pa]; uses the engine up. NaN where it cannot be marched: only the echo's gain hangs on it. */
function firstPulse(engine: EngineNetwork, settled: Settled): () => number {
  return () => {
    try {
      return firstPulsePeak(engine, settled.recorder);
    } catch (error) {
      if (error instanceof MarchFailure) return Number.NaN;
      throw error;
    }
  };
}
