/**
 * A sweep over speeds. Speeds are taken in fixed groups of neighbours: each starts from its own fields on a coarser mesh, and these
 * from the neighbour's there, the first of a group cold. On cells that are coarse themselves each starts from its neighbour. The
 * groups depend on the list of speeds alone, so the rows do not depend on the number of threads nor on which finishes first.
 */

import { MarchFailure } from '../../../solver/index.ts';
import type { SweepResult } from '../../engine/read/result.ts';
import { runSpeed } from '../../engine/run/run-speed.ts';
import type { EngineState } from '../../engine/run/state.ts';
import type { OutlineSection, SpeedRecord } from '../../findings/record.ts';
import type { Case } from '../../model/case.ts';
import { exhaustSections } from '../../pipe/exhaust.ts';
import { sweptVolume, volumesOf } from '../../timing/volume.ts';

/** Most neighbouring speeds that one thread does one after another. */
const LARGEST = 3;
/** A group takes at most this share of the speeds that are left, so that threads end at nearly the same time [-]. */
const SHARE = 1 / 4;

export interface SpeedGroup {
  readonly subject: Case;
  readonly speeds: readonly number[];
  /** Leave out traces and diagrams. */
  readonly brief?: boolean;
}

export interface SpeedFailure {
  readonly speedRpm: number;
  readonly reason: string;
}

export interface GroupResult {
  readonly records: readonly SpeedRecord[];
  readonly failures: readonly SpeedFailure[];
}

/** Speeds in groups of neighbours, ascending: large ones first, single speeds at the end. They depend on the list alone. */
export function neighbours(speeds: readonly number[]): readonly (readonly number[])[] {
  const groups: (readonly number[])[] = [];
  for (let done = 0; done < speeds.length; ) {
    const size = Math.min(LARGEST, Math.ceil(SHARE * (speeds.length - done)));
    groups.push(speeds.slice(done, done + size));
    done += size;
  }
  return groups;
}

/** The groups of a sweep, in ascending order of speed. */
export function speedGroups(subject: Case): SpeedGroup[] {
  return neighbours(subject.run.speeds).map((speeds) => ({ subject, speeds }));
}

/** Speeds of a sweep that start cold: the first of each group. */
export const coldSpeeds = (speeds: readonly number[]): ReadonlySet<number> =>
  new Set(neighbours(speeds).map(([first]) => first as number));

/** Groups of one of many sweeps, brief: all as large as can be, for no thread waits before the last sweep of all. */
export function evenGroups(subject: Case): SpeedGroup[] {
  const { speeds } = subject.run;
  const count = Math.ceil(speeds.length / LARGEST);
  return Array.from({ length: count }, (_, k) => ({
    subject,
    speeds: speeds.slice(k * LARGEST, (k + 1) * LARGEST),
    brief: true,
  }));
}

/** Longest cells for which a start on coarser ones costs less than it spares [m]. */
const FINE = 12e-3;

/** Runs one group; a speed that fails is kept with its reason, and the next one starts afresh. */
export function runGroup(group: SpeedGroup): GroupResult {
  const records: SpeedRecord[] = [];
  const failures: SpeedFailure[] = [];
  const isFine = group.subject.run.cell <= FINE;
  let start: EngineState | null = null;
  let coarse: EngineState | null = null;
  for (const rpm of group.speeds) {
    try {
      const outcome = runSpeed({
        subject: group.subject,
        rpm,
        start,
        coarse,
        ...(group.brief === undefined ? {} : { brief: group.brief }),
      });
      records.push(outcome.record);
      coarse = outcome.coarse;
      start = !isFine && outcome.record.row.settled ? outcome.state : null;
    } catch (error) {
      if (!(error instanceof MarchFailure)) throw error;
      failures.push({ speedRpm: rpm, reason: error.message });
      start = null;
      coarse = null;
    }
  }
  return { records, failures };
}

/** Outline of the exhaust from the port face on. */
export function outlineOf(subject: Case): OutlineSection[] {
  return exhaustSections(subject).map(({ name, role, start, end, diameter }) => ({
    name,
    role,
    start,
    end,
    diameters: diameter,
  }));
}

/** Joins the groups' results. */
export function sweepResult(subject: Case, program: string, groups: readonly GroupResult[]): SweepResult {
  const speeds = groups.flatMap((g) => g.records).sort((a, b) => a.row.speed_rpm - b.row.speed_rpm);
  return {
    schemaVersion: 1,
    kind: 'sweep',
    program,
    case: subject,
    outline: outlineOf(subject),
    displacement: sweptVolume(volumesOf(subject.engine)),
    rows: speeds.map((s) => s.row),
    speeds,
    failures: groups.flatMap((g) => g.failures).sort((a, b) => a.speedRpm - b.speedRpm),
  };
}
