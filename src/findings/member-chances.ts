/**
 * In how many members one draft beats another. Both have the same members: what one is assumed to be, the other is too, so what
 * both share goes out of the difference, and a decision may be sure where neither number is.
 */

import type { SpeedSpan } from './band.ts';
import { curveOf, highest, meanOver, valueAt } from './curve.ts';
import { type Chance, type MemberSweep, settledRows } from './member-bands.ts';
import { type Percentiles, percentilesOf } from './percentile.ts';
import type { SweepRow } from './row.ts';

/** A chance and by how much one is ahead of the other, percentiles over the members. */
export interface Lead {
  readonly better: Chance;
  readonly by: Percentiles;
}

export interface DraftChances {
  readonly draft: string;
  readonly against: string;
  /** Torque at the target speed [N m]; null: there is no target. */
  readonly at_target: (Lead & { readonly speed_rpm: number }) | null;
  /** Mean torque over a range of speeds [N m]; null: none is common. */
  readonly over_band: (Lead & { readonly from_rpm: number; readonly to_rpm: number }) | null;
  /** Best torque [N m] and power [kW]. */
  readonly best_torque: Lead;
  readonly best_power: Lead;
}

interface Named {
  readonly name: string;
  readonly members: readonly MemberSweep[];
}

/** How one draft fares against another, member by member. */
export function draftChances(
  draft: Named,
  against: Named,
  { target, band }: { readonly target: number | null; readonly band: SpeedSpan | null },
): DraftChances {
  const lead = (of: (rows: readonly SweepRow[]) => number | null): Lead => {
    const differences = draft.members.flatMap((one) => {
      const other = against.members.find(({ member }) => member === one.member);
      const here = of(settledRows(one));
      const there = other === undefined ? null : of(settledRows(other));
      return here === null || there === null ? [] : [here - there];
    });
    const better = { in: differences.filter((by) => by > 0).length, of: differences.length };
    return { better, by: percentilesOf(differences) };
  };
  const torqueAt = (speed: number) => (rows: readonly SweepRow[]) =>
    valueAt(curveOf(rows, 'torque_nm'), speed);
  return {
    draft: draft.name,
    against: against.name,
    at_target: target === null ? null : { speed_rpm: target, ...lead(torqueAt(target)) },
    over_band:
      band === null
        ? null
        : {
            from_rpm: band.from,
            to_rpm: band.to,
            ...lead((rows) => meanOver(curveOf(rows, 'torque_nm'), band.from, band.to)),
          },
    best_torque: lead((rows) => highest(rows, 'torque_nm')?.torque_nm ?? null),
    best_power: lead((rows) => highest(rows, 'power_kw')?.power_kw ?? null),
  };
}
