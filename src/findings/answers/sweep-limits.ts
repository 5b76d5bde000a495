/** What holds an engine back beside its band of landing, and what would help. */

import type { SpeedSpan } from '../band.ts';
import { landing, middleLead } from '../landing.ts';
import type { SweepRow } from '../row.ts';

export type Limit =
  /** Up to a speed below the band the wave is back before the transfers close. */
  | { readonly kind: 'early'; readonly upTo: number }
  /** From a speed above it the wave is late: its middle after closing, at it, or before it with too little in time. */
  | {
      readonly kind: 'late';
      readonly from: number;
      readonly how: 'after' | 'at' | 'partly';
      readonly share: number | null;
    }
  /** At best power the cylinder stands above the crankcase as the transfers open, and blows charge back, or hardly. */
  | {
      readonly kind: 'blowdown';
      readonly excessBar: number;
      readonly backShare: number;
      readonly look: 'port' | 'pipe';
    }
  /** At best power the passage is all but choked. */
  | { readonly kind: 'passage'; readonly mach: number };

/** Share of the charge blown back above which the port is to be looked at before the pipe [-]. Judgement, no source. */
const MUCH_BACK_FLOW = 0.05;
/** An excess of the cylinder's pressure and a share blown back below which nothing is said [bar, -]. Judgement, no source. */
const LEAST_EXCESS = 0.05;
const LEAST_BACK_FLOW = 0.005;
/** Mach number at the passage's exit from which a larger one helps [-]. Judgement, no source. */
const NEARLY_CHOKED = 0.9;
/** A middle within this of exhaust closing comes with it [deg]. */
const AT_CLOSING = 1;

export function limitsOf(
  rows: readonly SweepRow[],
  widest: SpeedSpan | undefined,
  power: SweepRow | null,
): readonly Limit[] {
  const limits: Limit[] = [];
  const above = widest && rows.find((row) => row.speed_rpm > widest.to && landing(row) !== 'none');
  const below =
    widest && [...rows].reverse().find((row) => row.speed_rpm < widest.from && landing(row) === 'early');
  if (below) limits.push({ kind: 'early', upTo: below.speed_rpm });
  if (above) limits.push(lateFrom(above));
  const blowdown = power === null ? null : blowdownAt(power);
  if (blowdown !== null) limits.push(blowdown);
  const mach = power?.passage_exit_mach_max ?? 0;
  if (mach > NEARLY_CHOKED) limits.push({ kind: 'passage', mach });
  return limits;
}

function lateFrom(row: SweepRow): Limit {
  const lead = middleLead(row) ?? 0;
  const how = lead <= -AT_CLOSING ? 'after' : lead < AT_CLOSING ? 'at' : 'partly';
  return { kind: 'late', from: row.speed_rpm, how, share: row.plugback_share_before_closing };
}

function blowdownAt(power: SweepRow): Limit | null {
  const { transfer_opening_cylinder_bar: cylinder, transfer_opening_crankcase_bar: crankcase } = power;
  if (cylinder === null || crankcase === null) return null;
  const excessBar = cylinder - crankcase;
  const backShare = power.transfer_backflow_ratio ?? 0;
  if (backShare >= MUCH_BACK_FLOW) return { kind: 'blowdown', excessBar, backShare, look: 'port' };
  if (excessBar > LEAST_EXCESS && backShare > LEAST_BACK_FLOW)
    return { kind: 'blowdown', excessBar, backShare, look: 'pipe' };
  return null;
}
