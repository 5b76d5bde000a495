/**
 * The speeds at which a pipe works: the wave lands, and torque is at least nine tenths of the best computed. Landing alone
 * is not enough: at the ends of its band the wave still comes between transfer and exhaust closing, but torque may be down
 * to eight tenths.
 *
 * Edges lie between the computed speeds, where the straight pieces cross: the middle that of transfer or exhaust closing,
 * the share in time that of `mainShare`, torque its level. So two pipes are told apart by less than a step of speeds. An
 * edge at which the computed speeds end is open: what lies beyond is not known.
 */

import { HELD_SHARE, heldAbout, type SpeedSpan, widthOf } from './band.ts';
import { computedSpeeds, curveOf, highest } from './curve.ts';
import { lands, MAIN_SHARE } from './landing.ts';
import type { SweepRow } from './row.ts';

export interface WorkingBand {
  /** Where the wave lands, about the speeds that work, or else the widest; null: nowhere. */
  readonly lands: SpeedSpan | null;
  /** Where it lands and the torque is held; null: nowhere. */
  readonly works: SpeedSpan | null;
  /** The computed speeds end before the band does: that of what works, or else of what lands. */
  readonly openBelow: boolean;
  readonly openAbove: boolean;
}

export function workingBand(rows: readonly SweepRow[]): WorkingBand {
  const level = HELD_SHARE * (highest(rows, 'torque_nm')?.torque_nm ?? Number.NaN);
  const all = landingSpans(rows).map((span) => ({ lands: span, works: heldIn(rows, span, level) }));
  const [best] = all.sort((a, b) => width(b.works) - width(a.works) || width(b.lands) - width(a.lands));
  if (best === undefined) return { lands: null, works: null, openBelow: false, openAbove: false };
  const { from, to } = best.works ?? best.lands;
  const { first, last } = computedSpeeds(rows);
  return { ...best, openBelow: from === first, openAbove: to === last };
}

/** A band of one speed is wider than none. */
const width = (span: SpeedSpan | null): number => widthOf(span) ?? -1;

/** Unbroken spans of speed at which the wave lands, their edges between the computed speeds; ascending. */
export function landingSpans(rows: readonly SweepRow[]): readonly SpeedSpan[] {
  const spans: { from: number; to: number }[] = [];
  rows.forEach((row, k) => {
    if (!lands(row)) return;
    const [before, after] = [rows[k - 1], rows[k + 1]];
    const open = spans.at(-1);
    if (open !== undefined && before !== undefined && lands(before)) open.to = edge(row, after);
    else spans.push({ from: edge(row, before), to: edge(row, after) });
  });
  return spans;
}

/** How far a row is inside each condition of landing, negative outside. */
function margins(row: SweepRow): readonly number[] | null {
  const { plugback_centroid_deg: middle, plugback_share_before_closing: share } = row;
  if (middle === null || share === null) return null;
  return [middle - row.transfers_close_deg, row.exhaust_closes_deg - middle, share - MAIN_SHARE];
}

/** Where landing ends between a speed that lands and its neighbour; the speed itself where that has no wave or is none. */
function edge(row: SweepRow, neighbour: SweepRow | undefined): number {
  const inside = margins(row);
  const beyond = neighbour === undefined ? null : margins(neighbour);
  if (neighbour === undefined || inside === null || beyond === null) return row.speed_rpm;
  const shares = inside.map((here, k) => {
    const there = beyond[k] ?? 0;
    return there < 0 ? here / (here - there) : 1;
  });
  return row.speed_rpm + Math.min(...shares) * (neighbour.speed_rpm - row.speed_rpm);
}

/** The widest part of a span in which torque is held; null: none. */
function heldIn(rows: readonly SweepRow[], span: SpeedSpan, level: number): SpeedSpan | null {
  const curve = curveOf(rows, 'torque_nm');
  let widest: SpeedSpan | null = null;
  for (const { speed_rpm } of rows) {
    if (speed_rpm < span.from || speed_rpm > span.to) continue;
    const held = heldAbout(curve, speed_rpm, level);
    if (held === null) continue;
    const part = { from: Math.max(held.from, span.from), to: Math.min(held.to, span.to) };
    if (width(part) > width(widest)) widest = part;
  }
  return widest;
}

/** The band as `sweep.json` has it [rpm]. */
export function bandDocument({ lands: landing, works, openBelow, openAbove }: WorkingBand) {
  return {
    lands_from_rpm: landing?.from ?? null,
    lands_to_rpm: landing?.to ?? null,
    works_from_rpm: works?.from ?? null,
    works_to_rpm: works?.to ?? null,
    open_below: openBelow,
    open_above: openAbove,
  };
}
