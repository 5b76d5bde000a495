/**
 * One speed from start to row: settle (on a coarser mesh first where there are no fields to start from), read the last
 * cycles, follow the echo, and find the first cycle's pulse to compare with.
 *
 * Fields of the same speed on coarse cells are a better start than a neighbour's on fine ones: on the demo's 5 mm the first
 * settle in 6 cycles, the second in 9, and the coarse cycles cost a ninth of a fine one. So a row of speeds hands on its
 * coarse fields, and each speed starts from its own.
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
import { FROM_COARSE, STRICT, USUAL } from './settle-limits.ts';
import { type EngineState, startCold, startFrom, takeState, USUAL_START } from './state.ts';

/** Cells of a start's mesh [m], or twice the wanted ones where that is more. */
const COARSE_CELL = 20e-3;
/** Cycles on the coarser mesh, at most; it need not settle. */
const COARSE_CYCLES = 10;
/** Cycles on a finer mesh, at most, where one is wanted for a start. */
const FINER_CYCLES = 30;
/** Courant numbers, as shares of the wanted one, that a speed is tried with before it is called a failure. */
const COURANT_SHARES = [1, 0.5] as const;

export interface SpeedInput {
  readonly subject: Case;
  readonly rpm: number;
  /** Settled state of a neighbour, or of this speed on other cells; null: one is found on coarse cells. */
  readonly start: EngineState | null;
  /** A neighbour's state on coarse cells, for the coarse start to begin with. */
  readonly coarse?: EngineState | null;
  readonly guess?: StartGuess;
  /** Leave out traces and diagram: for studies of many drafts. */
  readonly brief?: boolean;
}

export interface SpeedOutcome {
  readonly record: SpeedRecord;
  readonly state: EngineState;
  /** The state on coarse cells that it began with, for the next speed; null: it was given another start. */
  readonly coarse: EngineState | null;
}

/** Cells of the mesh on which a start is found [m]. */
export const coarseCell = (cell: number): number => Math.max(COARSE_CELL, 2 * cell);

/**
 * A state to start a wanted mesh from: on the coarse mesh from a neighbour's or cold; where none of that marches, cold on the
 * wanted mesh itself. @throws MarchFailure
 */
export function coarseState(
  subject: Case,
  rpm: number,
  { from = null, guess = USUAL_START }: { from?: EngineState | null; guess?: StartGuess } = {},
): EngineState {
  const { cell } = subject.run;
  const cold = [
    { mesh: coarseCell(cell), state: null },
    { mesh: cell, state: null },
  ];
  const ways = from === null ? cold : [{ mesh: coarseCell(cell), state: from }, ...cold];
  return firstThatMarches(ways, ({ mesh, state }) =>
    settledOn(mesh, { subject, rpm, from: state, guess, most: COARSE_CYCLES }),
  );
}

/** A state for a mesh on which no other start marches: cold on one twice as fine. @throws MarchFailure */
const finerState = (subject: Case, rpm: number, guess: StartGuess = USUAL_START): EngineState =>
  settledOn(0.5 * subject.run.cell, { subject, rpm, from: null, guess, most: FINER_CYCLES });

/** Where some cycles on a mesh lead, from a state or cold (null); they need not settle. @throws MarchFailure */
function settledOn(
  mesh: number,
  {
    subject,
    rpm,
    from,
    guess,
    most,
  }: Pick<SpeedInput, 'subject' | 'rpm'> & {
    readonly from: EngineState | null;
    readonly guess: StartGuess;
    readonly most: number;
  },
): EngineState {
  const engine = buildEngine(subject, rpm, mesh);
  if (from === null) startCold(engine, guess);
  else startFrom(engine, from);
  const strictness = from === null ? { ...USUAL, minCycles: COARSE_CYCLES } : USUAL;
  settle(engine, strictness, Math.min(most, subject.run.maxCycles));
  return takeState(engine);
}

/**
 * Runs one speed. A march that fails is tried again: from a cold start where it began with a neighbour's state, from fields found
 * on a finer mesh, then with a smaller Courant number. @throws MarchFailure
 */
export function runSpeed(input: SpeedInput): SpeedOutcome {
  const { subject, start } = input;
  return firstThatMarches(COURANT_SHARES, (share) => {
    const courant = share * subject.run.courant;
    const cautious = share === 1 ? subject : { ...subject, run: { ...subject.run, courant } };
    const starts = share === 1 && start !== null ? [() => start, () => null] : [() => null];
    const finer = (): EngineState => finerState(cautious, input.rpm, input.guess);
    const outcome = firstThatMarches([...starts, finer], (from) =>
      marchSpeed({ ...input, subject: cautious, start: from() }),
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
  const coarse =
    input.start === null
      ? coarseState(subject, rpm, { from: input.coarse ?? null, guess: input.guess ?? USUAL_START })
      : null;
  startFrom(engine, input.start ?? (coarse as EngineState));
  const usual = coarse === null ? USUAL : FROM_COARSE;
  const strictness = subject.run.scheme === 'conservative' ? usual : STRICT;
  const settled = settle(engine, strictness, subject.run.maxCycles);
  const state = takeState(engine);
  const record = speedRecord(engine, settled, firstPulse(engine, settled), input.brief ?? false);
  return { record, state, coarse };
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
