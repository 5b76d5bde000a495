/**
 * Running a change of an engine or its pipe beside what it is changed from, on one thread. A change starts from the settled
 * fields of what it changes, and each further speed from those of the nearest speed done, so that it settles in a few
 * cycles. A speed that fails to march is null.
 */

import { MarchFailure } from '../../../solver/index.ts';
import { runSpeed } from '../../engine/run/run-speed.ts';
import type { EngineState } from '../../engine/run/state.ts';
import { lands } from '../../findings/landing.ts';
import type { SweepRow } from '../../findings/row.ts';
import type { Case } from '../../model/case.ts';

/** Changes of a case at one speed [rpm]. */
export interface ScreenJob {
  readonly base: Case;
  readonly changed: readonly Case[];
  readonly rpm: number;
}

export interface Screened {
  readonly base: SweepRow | null;
  readonly changed: readonly (SweepRow | null)[];
}

export function runScreen({ base, changed, rpm }: ScreenJob): Screened {
  const first = oneSpeed(base, rpm, null);
  return {
    base: first?.row ?? null,
    changed: changed.map((subject) => oneSpeed(subject, rpm, first?.state ?? null)?.row ?? null),
  };
}

/** A changed case at a speed, and on to where its wave ceases to land. */
export interface FollowJob {
  readonly base: Case;
  readonly changed: Case;
  /** Where torque is compared [rpm]. */
  readonly rpm: number;
  /** Where the edges of the landing are looked for first [rpm]. */
  readonly lower: number;
  readonly upper: number;
  /** Between the speeds that are run [rpm]. */
  readonly step: number;
  /** Speeds run at most for each edge. */
  readonly most: number;
}

export interface Followed {
  readonly base: SweepRow | null;
  /** The changed case at that speed, null where it failed, and all its speeds, ascending. */
  readonly at: SweepRow | null;
  readonly rows: readonly SweepRow[];
}

export function runFollow({ base, changed, rpm, lower, upper, step, most }: FollowJob): Followed {
  const before = oneSpeed(base, rpm, null);
  const done = new Map<number, Done>();
  const failed = new Set<number>();
  const at = (speed: number, start: EngineState | null = null): SweepRow | null => {
    const kept = done.get(speed);
    if (kept !== undefined || failed.has(speed)) return kept?.row ?? null;
    const one = oneSpeed(changed, speed, start ?? nearestState(done, speed));
    if (one === null) failed.add(speed);
    else done.set(speed, one);
    return one?.row ?? null;
  };
  at(rpm, before?.state);
  const place = (speed: number): number => rpm + step * Math.round((speed - rpm) / step);
  findEdge(at, { from: place(lower), inward: step, most });
  findEdge(at, { from: place(upper), inward: -step, most });
  const rows = [...done.values()].map((one) => one.row).sort((a, b) => a.speed_rpm - b.speed_rpm);
  return { base: before?.row ?? null, at: done.get(rpm)?.row ?? null, rows };
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

interface Done {
  readonly row: SweepRow;
  readonly state: EngineState;
}

function nearestState(done: ReadonlyMap<number, Done>, speed: number): EngineState | null {
  let best: number | null = null;
  for (const [other, { row }] of done) {
    if (!row.settled) continue;
    if (best === null || Math.abs(other - speed) < Math.abs(best - speed)) best = other;
  }
  return best === null ? null : (done.get(best)?.state ?? null);
}

function oneSpeed(subject: Case, rpm: number, start: EngineState | null): Done | null {
  try {
    const { record, state } = runSpeed({ subject, rpm, start, brief: true });
    return { row: record.row, state };
  } catch (error) {
    if (error instanceof MarchFailure) return null;
    throw error;
  }
}
