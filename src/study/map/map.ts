/**
 * The map: every speed at every exhaust duration, each point settled in full. The work is cut into groups of
 * neighbouring speeds at one duration, as a sweep is; a finished group goes into the journal before it counts. What is
 * kept went through JSON in any case, so that a run that was broken off and one that was not end with the same files.
 */

import type { OutlineSection } from '../../findings/record.ts';
import type { DurationPoint, SweepRow } from '../../findings/row.ts';
import type { Case } from '../../model/case.ts';
import { compressionRatios } from '../../timing/volume.ts';
import type { Journal, JournalOf } from '../work/journal.ts';
import { refuseHugeMesh } from '../work/mesh-limit.ts';
import { resultOrThrow } from '../work/outcome.ts';
import type { Pool } from '../work/pool.ts';
import { evenGroups, type GroupResult, outlineOf, type SpeedGroup } from '../work/run-sweep.ts';
import { studyCell } from '../work/study-cell.ts';
import { exhaustDuration, withExhaustDuration } from './exhaust-duration.ts';

/** Speeds of a map at most, where the case has more and none are asked for. */
const MOST_SPEEDS = 13;

/** 180 to 206 degrees in steps of two: what racing engines have, and what lies beyond on either side. */
export const USUAL_DURATIONS: readonly number[] = Array.from({ length: 14 }, (_, k) => 180 + 2 * k);

export interface MapRequest {
  readonly speeds?: readonly number[] | undefined;
  readonly durations?: readonly number[] | undefined;
  readonly cell?: number | undefined;
}

/** What is to be run. */
export interface MapPlan {
  readonly kind: 'map';
  readonly program: string;
  /** The case as drawn, with the map's speeds and cells. */
  readonly subject: Case;
  readonly durations: readonly number[];
  readonly drawnDurationDeg: number;
  /** Durations that cannot be cut, and why. */
  readonly leftOut: readonly { readonly durationDeg: number; readonly reason: string }[];
}

export function planMap(subject: Case, request: MapRequest, program: string): MapPlan {
  const speeds = request.speeds ?? everySecond(subject.run.speeds, subject.run.targetSpeed);
  const cell = studyCell(subject, request.cell);
  refuseHugeMesh({ ...subject, run: { ...subject.run, cell } });
  const durations: number[] = [];
  const leftOut: { durationDeg: number; reason: string }[] = [];
  for (const durationDeg of request.durations ?? USUAL_DURATIONS) {
    try {
      withExhaustDuration(subject, durationDeg);
      durations.push(durationDeg);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      leftOut.push({ durationDeg, reason: error.message });
    }
  }
  return {
    kind: 'map',
    program,
    subject: { ...subject, run: { ...subject.run, speeds, cell } },
    durations,
    drawnDurationDeg: exhaustDuration(subject.engine),
    leftOut,
  };
}

/** What the journal is of. */
export function journalOf({ kind, program, ...what }: MapPlan): JournalOf {
  return { kind, name: what.subject.name, program, what };
}

/** Every second speed where there are many, the target among them if it is one of the case's. */
function everySecond(speeds: readonly number[], target: number | null): readonly number[] {
  if (speeds.length <= MOST_SPEEDS) return speeds;
  const first = target === null ? 0 : Math.max(0, speeds.indexOf(target)) % 2;
  return speeds.filter((_, k) => k % 2 === first);
}

export interface MapGroup extends SpeedGroup {
  readonly durationDeg: number;
  /** Its name in the journal. */
  readonly draft: string;
}

/** The groups of a map, by duration and speed ascending. */
export function mapGroups(plan: MapPlan): MapGroup[] {
  return plan.durations.flatMap((durationDeg) =>
    evenGroups(withExhaustDuration(plan.subject, durationDeg)).map((group) => ({
      ...group,
      durationDeg,
      draft: `${durationDeg} deg, ${group.speeds.join(' ')} rpm`,
    })),
  );
}

/** What the journal keeps of a group. */
export interface KeptGroup {
  readonly points: readonly { readonly row: SweepRow; readonly notes: readonly string[] }[];
  readonly failures: GroupResult['failures'];
}

export function keptGroup({
  records,
  failures,
}: {
  readonly records: readonly Pick<GroupResult['records'][number], 'row' | 'notes'>[];
  readonly failures: GroupResult['failures'];
}): KeptGroup {
  return { points: records.map(({ row, notes }) => ({ row, notes })), failures };
}

/** Runs the groups that the journal lacks; `done` holds those it has, by draft, and gets the others. */
export async function runMap(
  groups: readonly MapGroup[],
  done: Map<string, KeptGroup>,
  use: {
    /** Threads, or lenders. */
    readonly pool: Pick<Pool, 'asFinished'>;
    readonly journal: Journal<KeptGroup>;
    readonly signal?: AbortSignal;
    /** Hears of the points finished so far, those in the journal included. */
    readonly advance?: (points: number) => void;
  },
): Promise<void> {
  const open = groups.filter(({ draft }) => !done.has(draft));
  const jobs = open.map(({ subject, speeds, brief }) => ({
    kind: 'speed-group' as const,
    input: { subject, speeds, ...(brief === undefined ? {} : { brief }) },
  }));
  let points = pointsIn(groups, done);
  for await (const { index, outcome } of use.pool.asFinished(jobs, use.signal)) {
    const { draft, speeds } = open[index]!;
    const result = resultOrThrow(outcome);
    const kept =
      'records' in result
        ? keptGroup(result)
        : { points: [], failures: speeds.map((speedRpm) => ({ speedRpm, reason: result.reason })) };
    use.journal.append(draft, kept);
    done.set(draft, JSON.parse(JSON.stringify(kept)));
    points += speeds.length;
    use.advance?.(points);
  }
}

/** Points of the groups that are done. */
export function pointsIn(groups: readonly MapGroup[], done: ReadonlyMap<string, KeptGroup>): number {
  return groups.reduce((sum, { draft, speeds }) => sum + (done.has(draft) ? speeds.length : 0), 0);
}

export interface MapPoint extends DurationPoint {
  readonly notes: readonly string[];
}

export interface MapResult {
  readonly schemaVersion: 1;
  readonly kind: 'map';
  readonly program: string;
  readonly case: Case;
  readonly outline: readonly OutlineSection[];
  readonly drawnDurationDeg: number;
  readonly durations: readonly number[];
  /** Compression at each duration: over the full stroke, which is kept, and from exhaust closing. */
  readonly compression: { readonly full: number; readonly trapped: readonly number[] };
  readonly leftOut: MapPlan['leftOut'];
  readonly points: readonly MapPoint[];
  readonly failures: readonly {
    readonly durationDeg: number;
    readonly speedRpm: number;
    readonly reason: string;
  }[];
}

/** Joins what was done, by duration and speed ascending. */
export function mapResult(
  plan: MapPlan,
  groups: readonly MapGroup[],
  done: ReadonlyMap<string, KeptGroup>,
): MapResult {
  const kept = groups.flatMap((group) => {
    const result = done.get(group.draft);
    return result === undefined ? [] : [{ durationDeg: group.durationDeg, result }];
  });
  const { subject, durations } = plan;
  return {
    schemaVersion: 1,
    kind: 'map',
    program: plan.program,
    case: subject,
    outline: outlineOf(subject),
    drawnDurationDeg: plan.drawnDurationDeg,
    durations,
    compression: {
      full: compressionRatios(subject.engine).full,
      trapped: durations.map((deg) => compressionRatios(withExhaustDuration(subject, deg).engine).trapped),
    },
    leftOut: plan.leftOut,
    points: kept.flatMap(({ durationDeg, result }) =>
      result.points.map(({ row, notes }) => ({ durationDeg, row, notes })),
    ),
    failures: kept.flatMap(({ durationDeg, result }) =>
      result.failures.map(({ speedRpm, reason }) => ({ durationDeg, speedRpm, reason })),
    ),
  };
}
