/**
 * A trial of changes of an engine or its pipe, on one thread: some are screened on coarse cells at the speed where they are
 * meant to help; the best is run on finer ones, and followed on coarse ones to where its wave ceases to land.
 *
 * What is told is what the sweep would give on its own cells. So each mesh is held against the sweep where the pipe as it
 * is does the same: a change that moves the band in a ratio does at N what the pipe as it is does at N/ratio, and there torque
 * and the middle of the wave are known on both meshes. At N itself the pipe as it is may stand at the edge of its band,
 * where a mesh makes another engine of it.
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

export interface TrialJob {
  readonly base: Case;
  /** One alone is not screened. */
  readonly candidates: readonly Candidate[];
  /** Where they are meant to help [rpm]. */
  readonly rpm: number;
  /** Rows of the pipe as it is. */
  readonly sweep: readonly SweepRow[];
  /** Where the wave lands now, and the step between the speeds that are run [rpm]. */
  readonly landing: { readonly from: number; readonly to: number };
  readonly step: number;
  /** Lengths of cells [m]: of the screen and the edges, and of the torque that is promised. */
  readonly coarse: number;
  readonly fine: number;
  /** What may be spent on edges, as `speedWork` counts. */
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
const EDGE_CYCLES = 20;
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

export function runTrial(job: TrialJob): Trial {
  const { base, candidates, rpm, sweep, coarse, fine } = job;
  const bench = new Bench();
  const alone = candidates.length === 1 ? candidates[0] : undefined;
  const first = knownFor(sweep, rpm, alone?.ratio ?? 1);
  const here = bench.run(base, coarse, alone === undefined ? rpm : (first?.speed_rpm ?? rpm), null);
  const tried = candidates.map(({ subject }) => bench.run(subject, coarse, rpm, here?.state ?? null));
  const screened = candidates.map(({ simple }, k) => ({
    gain: gainOf(here?.row ?? null, tried[k]?.row ?? null),
    simple,
  }));
  const chosen = alone === undefined ? bestOfScreen(screened) : 0;
  const candidate = chosen === null ? undefined : candidates[chosen];
  const start = chosen === null ? null : (tried[chosen] ?? null);
  const known = candidate === undefined ? null : knownFor(sweep, rpm, candidate.ratio);
  if (candidate === undefined || start === null || known === null || here === null)
    return { chosen, at: null, rows: [], work: bench.work };
  const like =
    here.row.speed_rpm === known.speed_rpm ? here : bench.run(base, coarse, known.speed_rpm, here.state);
  const likeFine = fine === coarse ? like : bench.run(base, fine, known.speed_rpm, like?.state ?? here.state);
  const at = fine === coarse ? start : bench.run(candidate.subject, fine, rpm, start.state);
  if (at === null || likeFine === null || like === null)
    return { chosen, at: null, rows: [], work: bench.work };
  const row = asSwept(at.row, { known, here: likeFine.row });
  const edges = edgesOf(job, candidate, { bench, toSweep: { known, here: like.row }, start, row });
  const rows = [...edges, row].sort((a, b) => a.speed_rpm - b.speed_rpm);
  return { chosen, at: row, rows, work: bench.work };
}

/**
 * The row of the sweep at which the pipe as it is stands as a change of a ratio does at a speed: that at the speed itself if it
 * settled and lands there, or else the settled one nearest to where it does the same.
 */
function knownFor(sweep: readonly SweepRow[], rpm: number, ratio: number): SweepRow | null {
  const same = sweep.find((row) => row.speed_rpm === rpm);
  if (same?.settled === true && lands(same)) return same;
  let best: SweepRow | null = null;
  const away = (row: SweepRow): number => Math.abs(row.speed_rpm - rpm / ratio);
  for (const row of sweep) if (row.settled && (best === null || away(row) < away(best))) best = row;
  return best;
}

/** Rows about the edges of a candidate's landing, beside that where it is meant to help. */
function edgesOf(
  { rpm, landing, step, coarse, edgeWork }: TrialJob,
  { subject, ratio }: Candidate,
  use: {
    readonly bench: Bench;
    readonly toSweep: AsSwept;
    readonly start: Done;
    /** Its row where it is meant to help, as the sweep would have it. */
    readonly row: SweepRow;
  },
): readonly SweepRow[] {
  const { bench, toSweep, start, row: main } = use;
  const done = new Map<number, { readonly row: SweepRow; readonly state: EngineState | null }>();
  done.set(rpm, { row: main, state: start.state });
  const until = bench.work + edgeWork;
  const at = (speed: number): SweepRow | null => {
    const kept = done.get(speed);
    if (kept !== undefined) return kept.row;
    if (bench.work >= until) return null;
    const one = bench.run(subject, coarse, speed, nearestState(done, speed), EDGE_CYCLES);
    if (one === null) return null;
    const row = asSwept(one.row, toSweep);
    done.set(speed, { row, state: one.row.settled ? one.state : null });
    return row;
  };
  const place = (speed: number): number => rpm + step * Math.round((speed - rpm) / step);
  findEdge(at, { from: place(landing.to * ratio), inward: -step, most: EDGE_SPEEDS });
  findEdge(at, { from: place(landing.from * ratio), inward: step, most: EDGE_SPEEDS });
  return [...done.values()].map((one) => one.row).filter((row) => row !== main);
}

/** Goes outward from a speed that lands and inward from one that does not, until two neighbours differ. */
function findEdge(
  at: (speed: number) => SweepRow | null,
  { from, inward, most }: { readonly from: number; readonly inward: number; readonly most: number },
): void {
  const landsAt = (speed: number): boolean => {
    const row = at(speed);
    return row !== null && lands(row);
  };
  const start = landsAt(from);
  let speed = from;
  for (let tries = 1; tries < most; tries++) {
    speed += start ? -inward : inward;
    if (speed <= 0 || landsAt(speed) !== start) return;
  }
}

function nearestState(
  done: ReadonlyMap<number, { readonly state: EngineState | null }>,
  speed: number,
): EngineState | null {
  let best: { readonly away: number; readonly state: EngineState } | null = null;
  for (const [other, { state }] of done) {
    const away = Math.abs(other - speed);
    if (state !== null && (best === null || away < best.away)) best = { away, state };
  }
  return best?.state ?? null;
}
