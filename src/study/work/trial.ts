/**
 * A trial of changes of an engine or its pipe, on one thread: some are screened on coarse cells at the speed where they are
 * meant to help; the best is run on finer ones, and followed on coarse ones to where its wave ceases to land.
 *
 * What is told is what the sweep would give on its own cells. So both meshes are held against the sweep at one speed inside the
 * band of the pipe as it is, where torque and the middle of the wave hang smoothly on everything, and the coarse one at the band's
 * lower edge too, for lower edges. At the upper edge a mesh makes another engine of it.
 *
 * Every run starts from the nearest settled fields, and takes few cycles. A speed that fails to march is null.
 */

import { MarchFailure } from '../../../solver/index.ts';
import { runSpeed } from '../../engine/run/run-speed.ts';
import type { EngineState } from '../../engine/run/state.ts';
import { bestOfScreen, gainOf } from '../../findings/answers/advice.ts';
import { type AsSwept, asSwept } from '../../findings/answers/as-swept.ts';
import { lands } from '../../findings/landing.ts';
import type { SweepRow } from '../../findings/row.ts';
import type { Case } from '../../model/case.ts';
import { speedWork } from './march-work.ts';
import { withRun } from './run-settings.ts';

/** A change of the case, in what ratio it is to move the band [-], and whether it is of the header alone. */
export interface Candidate {
  readonly subject: Case;
  readonly ratio: number;
  readonly simple: boolean;
}

/** The pipe as it is at one speed, on the meshes of the trials. */
export interface LikenessJob {
  readonly base: Case;
  readonly rpm: number;
  /** Lengths of cells [m]: of screens and edges, and of the torque that is promised. */
  readonly coarse: number;
  readonly fine: number;
  /** Where the wave begins to land; null: not known [rpm]. */
  readonly edgeRpm: number | null;
}

export interface Likeness {
  readonly coarse: SweepRow;
  readonly fine: SweepRow;
  /** At that speed on coarse cells; null: not run. */
  readonly edge: SweepRow | null;
  /** Settled fields on coarse cells. */
  readonly state: EngineState;
  readonly work: number;
}

export interface TrialJob extends LikenessJob {
  /** One alone is not screened. They are meant to help at `rpm`. */
  readonly candidates: readonly Candidate[];
  /** A row of the sweep, and the same speed on the meshes of the trial. */
  readonly known: SweepRow;
  /** Likewise where the wave begins to land, if that is known. */
  readonly knownEdge: SweepRow | null;
  readonly likeness: Likeness;
  /** Where the wave lands now, and the step between the speeds that are run [rpm]. */
  readonly landing: { readonly from: number; readonly to: number };
  readonly step: number;
  /** What may be spent on the screen and on edges, as `speedWork` counts. */
  readonly screenWork: number;
  readonly edgeWork: number;
}

export interface Trial {
  /** Place of the candidate that was followed; null: none gained enough. */
  readonly chosen: number | null;
  /** Its row where it is meant to help, as the sweep would have it; null: it failed. */
  readonly at: SweepRow | null;
  /** All its rows, ascending, as the sweep would have them. */
  readonly rows: readonly SweepRow[];
  readonly work: number;
}

/** Cycles after which a run that does not settle is read as it is: at the edge of the band for a landing, elsewhere. */
const EDGE_CYCLES = 36;
const TRIAL_CYCLES = 40;
/** Speeds looked at for each edge, at most. */
const EDGE_SPEEDS = 4;

interface Done {
  readonly row: SweepRow;
  readonly state: EngineState;
}

/** Runs a case's speeds on cells of a length, and counts what that takes. */
class Bench {
  work = 0;

  run(
    subject: Case,
    cell: number,
    rpm: number,
    start: EngineState | null,
    maxCycles = TRIAL_CYCLES,
  ): Done | null {
    const most = Math.min(subject.run.maxCycles, maxCycles);
    const limited = withRun({ ...subject, run: { ...subject.run, maxCycles: most } }, { cell });
    try {
      const { record, state } = runSpeed({ subject: limited, rpm, start, brief: true });
      this.work += speedWork(cell, record.row.cycles, start === null ? 'cold' : 'warm');
      return { row: record.row, state };
    } catch (error) {
      if (!(error instanceof MarchFailure)) throw error;
      this.work += speedWork(cell, most, 'warm');
      return null;
    }
  }
}

/** Null: it cannot be marched. */
export function runLikeness({ base, rpm, coarse, fine, edgeRpm }: LikenessJob): Likeness | null {
  const bench = new Bench();
  const first = bench.run(base, coarse, rpm, null);
  const second = fine === coarse || first === null ? first : bench.run(base, fine, rpm, first.state);
  if (first === null || second === null) return null;
  const edge = edgeRpm === null ? null : (bench.run(base, coarse, edgeRpm, first.state)?.row ?? null);
  return { coarse: first.row, fine: second.row, edge, state: first.state, work: bench.work };
}

export function runTrial(job: TrialJob): Trial {
  const { base, candidates, rpm, known, knownEdge, likeness, coarse, fine } = job;
  const bench = new Bench();
  const alone = candidates.length === 1;
  const here =
    alone || rpm === known.speed_rpm
      ? { row: likeness.coarse, state: likeness.state }
      : bench.run(base, coarse, rpm, likeness.state);
  const until = bench.work + job.screenWork;
  // Changes that settle slowly leave no room for the last ones.
  const tried = candidates.map(({ subject }, k) =>
    k > 0 && bench.work >= until ? null : bench.run(subject, coarse, rpm, here?.state ?? likeness.state),
  );
  const screened = candidates.map(({ simple }, k) => ({
    gain: gainOf(here?.row ?? null, tried[k]?.row ?? null),
    simple,
  }));
  const chosen = alone ? 0 : bestOfScreen(screened);
  const candidate = chosen === null ? undefined : candidates[chosen];
  const start = chosen === null ? null : (tried[chosen] ?? null);
  const at =
    candidate === undefined || start === null || fine === coarse
      ? start
      : bench.run(candidate.subject, fine, rpm, start.state);
  if (candidate === undefined || start === null || at === null)
    return { chosen, at: null, rows: [], work: bench.work };
  const row = asSwept(at.row, { known, here: likeness.fine });
  const upper: AsSwept = { known, here: likeness.coarse };
  const { edge } = likeness;
  const lower = knownEdge === null || edge === null ? upper : { known: knownEdge, here: edge };
  const edges = edgesOf(job, candidate, { bench, lower, upper, start, row });
  const rows = [...edges, row].sort((a, b) => a.speed_rpm - b.speed_rpm);
  return { chosen, at: row, rows, work: bench.work };
}

/** Rows about the edges of a candidate's landing, beside that where it is meant to help. */
function edgesOf(
  { rpm, landing, step, coarse, edgeWork }: TrialJob,
  { subject, ratio }: Candidate,
  use: {
    readonly bench: Bench;
    readonly lower: AsSwept;
    readonly upper: AsSwept;
    readonly start: Done;
    /** Its row where it is meant to help, as the sweep would have it. */
    readonly row: SweepRow;
  },
): readonly SweepRow[] {
  const { bench, lower, upper, start, row: main } = use;
  const done = new Map<number, { readonly row: SweepRow; readonly state: EngineState | null }>();
  done.set(rpm, { row: main, state: start.state });
  const until = bench.work + edgeWork;
  const at = (speed: number, toSweep: AsSwept): SweepRow | null => {
    const kept = done.get(speed);
    if (kept !== undefined) return kept.row;
    if (bench.work >= until) return null;
    const one = bench.run(subject, coarse, speed, nearestState(done, speed), EDGE_CYCLES);
    if (one === null) return null;
    const row = asSwept(one.row, toSweep);
    done.set(speed, { row, state: one.row.settled ? one.state : null });
    return row;
  };
  const landsAt =
    (toSweep: AsSwept) =>
    (speed: number): boolean => {
      const row = at(speed, toSweep);
      return row !== null && lands(row);
    };
  const onGrid = (speed: number): number => rpm + step * Math.floor((speed - rpm) / step);
  findEdge(landsAt(upper), onGrid(landing.to * ratio + 0.5 * step), -step);
  const from = onGrid(landing.from * ratio);
  const end = findEdge(landsAt(lower), from, step);
  // An engine may keep landing on the way down where it does not yet on the way up, on which a sweep comes to it.
  if (end !== null && end < from && end + step !== rpm && bench.work < until) {
    done.delete(end + step);
    if (!landsAt(lower)(end + step)) findEdge(landsAt(lower), end + step, step);
  }
  return [...done.values()].map((one) => one.row).filter((row) => row !== main);
}

/**
 * Goes outward from a speed that lands and inward from one that does not, until two neighbours differ.
 * @returns the last speed looked at; null: all were alike
 */
function findEdge(landsAt: (speed: number) => boolean, from: number, inward: number): number | null {
  const start = landsAt(from);
  let speed = from;
  for (let tries = 1; tries < EDGE_SPEEDS; tries++) {
    speed += start ? -inward : inward;
    if (speed <= 0) return null;
    if (landsAt(speed) !== start) return speed;
  }
  return null;
}

function nearestState(
  done: ReadonlyMap<number, { readonly state: EngineState | null }>,
  speed: number,
): EngineState | null {
  let best: { readonly away: number; readonly state: EngineState } | null = null;
  for (const [other, { state }] of done) {
    const away = Math.abs(other - speed);
    // Of two as near the later one, which is nearer by its history too.
    if (state !== null && (best === null || away <= best.away)) best = { away, state };
  }
  return best?.state ?? null;
}
