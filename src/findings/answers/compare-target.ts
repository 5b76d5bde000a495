/** Which of several drafts serves the target speed. */

import { rowFor } from '../curve.ts';
import { type Landing, landing } from '../landing.ts';
import type { NamedRows } from './compare-summary.ts';

/** Most torque at the target, and where each one's wave lands. */
export interface TargetAnswer {
  readonly wanted: number;
  /** The speed that stands for it; null: none was computed. */
  readonly speedRpm: number | null;
  readonly most: { readonly name: string; readonly torque: number } | null;
  /** Null: the draft was not run there. */
  readonly landings: readonly { readonly name: string; readonly landing: Landing | null }[];
}

export function targetAnswer(drafts: readonly NamedRows[], wanted: number): TargetAnswer {
  const there = drafts.map(({ name, rows }) => ({
    name,
    row: rows.length === 0 ? null : rowFor(rows, wanted),
  }));
  const most = there.reduce<TargetAnswer['most']>((best, { name, row }) => {
    const torque = row?.torque_nm ?? null;
    return torque === null || torque <= (best?.torque ?? Number.NEGATIVE_INFINITY) ? best : { name, torque };
  }, null);
  return {
    wanted,
    speedRpm: there.find(({ row }) => row !== null)?.row?.speed_rpm ?? null,
    most,
    landings: there.map(({ name, row }) => ({ name, landing: row === null ? null : landing(row) })),
  };
}
