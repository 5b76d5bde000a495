/**
 * Drafts side by side. Nobody wins by less than the computed speeds can tell: two bands that differ by less than a step,
 * two powers by less than a hundredth, are a tie.
 */

import { type Band, bandOf, EDGE_STEP, landingBands, type SpeedSpan, widthOf } from '../band.ts';
import {
  atEndOfRange,
  type Computed,
  computedSpeeds,
  curveOf,
  highest,
  meanOver,
  middleLeadAt,
  rowFor,
  valueAt,
} from '../curve.ts';
import { type Landing, landing } from '../landing.ts';
import type { SweepRow } from '../row.ts';

/** Drafts that one comparison takes at most. */
export const MOST_DRAFTS = 8;

/** Half the range of the mean where only a target is stated [rpm]. */
const HALF_RANGE = 1000;

export interface NamedRows {
  readonly name: string;
  readonly rows: readonly SweepRow[];
}

export interface DraftSummary {
  readonly name: string;
  readonly peakTorque: number | null;
  readonly peakTorqueSpeed: number | null;
  readonly peakPower: number | null;
  readonly peakPowerSpeed: number | null;
  /** Width of the band of nine tenths [rpm]. */
  readonly torqueBand: number | null;
  readonly powerBand: number | null;
  /** Mean torque over the range of the comparison [Nm]. */
  readonly averageTorque: number | null;
  /** Exhaust closing less the peak of the plug-back, and less its middle [deg]. */
  readonly leadAtTarget: number | null;
  readonly middleLeadAtTarget: number | null;
  /** The widest band in which the wave lands [rpm]. */
  readonly usefulFrom: number | null;
  readonly usefulTo: number | null;
}

export type SummaryNumbers = Omit<DraftSummary, 'name'>;

export interface ComparedDraft {
  readonly summary: DraftSummary;
  readonly computed: Computed;
  /** A best at the first or last computed speed may be surpassed beyond it. */
  readonly torqueAtEnd: boolean;
  readonly powerAtEnd: boolean;
  /** The band goes on where the computed speeds end. */
  readonly torqueBandOpen: boolean;
  readonly powerBandOpen: boolean;
  /** Its numbers less those of the first; null: it is the first. */
  readonly lessFirst: SummaryNumbers | null;
}

export interface CompareAnswer {
  readonly targetSpeed: number | null;
  /** Range of the mean torque [rpm]. */
  readonly band: SpeedSpan | null;
  readonly drafts: readonly ComparedDraft[];
  readonly target: TargetAnswer | null;
  /** Those that share the most power and the broadest torque; null: no draft was finished. */
  readonly best: BestOfDrafts | null;
}

export interface BestOfDrafts {
  readonly strong: readonly ComparedDraft[];
  /** Most power [kW], where, and whether it is at least that. */
  readonly power: number;
  readonly powerSpeed: number | null;
  readonly powerAtEnd: boolean;
  readonly wide: readonly ComparedDraft[];
  readonly width: number;
  readonly widthOpen: boolean;
}

/** Which draft serves the target: most torque there, and where each one's wave lands. Null rows: it was not computed. */
export interface TargetAnswer {
  readonly wanted: number;
  /** The speed that stands for it; null: none. */
  readonly speedRpm: number | null;
  readonly most: { readonly name: string; readonly torque: number } | null;
  readonly landings: readonly { readonly name: string; readonly landing: Landing }[];
}

/** @param stated range of the mean; null: about the target, or the first draft's band of torque */
export function compareAnswer(
  drafts: readonly NamedRows[],
  targetSpeed: number | null,
  stated: SpeedSpan | null,
): CompareAnswer {
  const band = stated ?? usualRange(drafts, targetSpeed);
  const summaries = drafts.map((draft) => summarise(draft, targetSpeed, band));
  const first = summaries[0];
  const compared = summaries.map(({ summary, ...rest }, k) => ({
    summary,
    ...rest,
    lessFirst: k === 0 || first === undefined ? null : less(summary, first.summary),
  }));
  return {
    targetSpeed,
    band,
    drafts: compared,
    target: targetSpeed === null ? null : targetAnswer(drafts, targetSpeed),
    best: bestOf(compared),
  };
}

/** As far as all drafts cover it. The edges of a band are taken as they are printed, so that the mean is of what is said. */
function usualRange(drafts: readonly NamedRows[], target: number | null): SpeedSpan | null {
  const held = target === null ? bandOf(drafts[0]?.rows ?? [], 'torque_nm') : null;
  const wanted =
    target === null
      ? held && { from: toStep(held.from, Math.ceil), to: toStep(held.to, Math.floor) }
      : { from: target - HALF_RANGE, to: target + HALF_RANGE };
  if (wanted === null) return null;
  const from = Math.max(wanted.from, ...drafts.map(({ rows }) => rows[0]?.speed_rpm ?? 0));
  const to = Math.min(wanted.to, ...drafts.map(({ rows }) => rows.at(-1)?.speed_rpm ?? 0));
  return to > from ? { from, to } : null;
}

const toStep = (speed: number, round: (value: number) => number): number =>
  EDGE_STEP * round(speed / EDGE_STEP);

const isOpen = (band: Band | null): boolean => band !== null && (band.openBelow || band.openAbove);

export function summarise(
  { name, rows }: NamedRows,
  targetSpeed: number | null,
  range: SpeedSpan | null,
): Omit<ComparedDraft, 'lessFirst'> {
  const [torque, power] = [highest(rows, 'torque_nm'), highest(rows, 'power_kw')];
  const [torqueBand, powerBand] = [bandOf(rows, 'torque_nm'), bandOf(rows, 'power_kw')];
  const useful = landingBands(rows)[0];
  const computed = computedSpeeds(rows);
  const summary = {
    name,
    peakTorque: torque?.torque_nm ?? null,
    peakTorqueSpeed: torque?.speed_rpm ?? null,
    peakPower: power?.power_kw ?? null,
    peakPowerSpeed: power?.speed_rpm ?? null,
    torqueBand: widthOf(torqueBand),
    powerBand: widthOf(powerBand),
    averageTorque: range === null ? null : meanOver(curveOf(rows, 'torque_nm'), range.from, range.to),
    leadAtTarget: targetSpeed === null ? null : valueAt(curveOf(rows, 'plugback_lead_deg'), targetSpeed),
    middleLeadAtTarget: targetSpeed === null ? null : middleLeadAt(rows, targetSpeed),
    usefulFrom: useful?.from ?? null,
    usefulTo: useful?.to ?? null,
  };
  return {
    summary,
    computed,
    torqueAtEnd: atEndOfRange(summary.peakTorqueSpeed, computed),
    powerAtEnd: atEndOfRange(summary.peakPowerSpeed, computed),
    torqueBandOpen: isOpen(torqueBand),
    powerBandOpen: isOpen(powerBand),
  };
}

function less(one: DraftSummary, first: DraftSummary): SummaryNumbers {
  const { name: _, ...numbers } = one;
  const entries = Object.entries(numbers).map(([key, value]) => {
    const base = first[key as keyof SummaryNumbers];
    return [key, value === null || base === null ? null : value - base];
  });
  return Object.fromEntries(entries) as SummaryNumbers;
}

/** Powers that differ by less than this share are a tie: the mesh moves them by as much. */
const TIE = 0.01;

function bestOf(drafts: readonly ComparedDraft[]): BestOfDrafts | null {
  const powers = drafts.map(({ summary }) => summary.peakPower ?? 0);
  const widths = drafts.map(({ summary }) => summary.torqueBand ?? 0);
  const [power, width] = [Math.max(...powers), Math.max(...widths)];
  if (drafts.length === 0 || !(power > 0)) return null;
  const strong = drafts.filter((_, k) => (powers[k] ?? 0) > (1 - TIE) * power);
  const wide = drafts.filter(({ computed }, k) => width - (widths[k] ?? 0) < Math.max(1, computed.step));
  const first = drafts[powers.indexOf(power)];
  const widest = drafts[widths.indexOf(width)];
  return {
    strong,
    power,
    powerSpeed: first?.summary.peakPowerSpeed ?? null,
    powerAtEnd: first?.powerAtEnd ?? false,
    wide,
    width,
    widthOpen: widest?.torqueBandOpen ?? false,
  };
}

export function targetAnswer(drafts: readonly NamedRows[], wanted: number): TargetAnswer {
  const there = drafts.map(({ name, rows }) => ({ name, row: rowFor(rows, wanted) }));
  const most = there.reduce<TargetAnswer['most']>((best, { name, row }) => {
    const torque = row?.torque_nm ?? null;
    return torque === null || torque <= (best?.torque ?? Number.NEGATIVE_INFINITY) ? best : { name, torque };
  }, null);
  return {
    wanted,
    speedRpm: there[0]?.row?.speed_rpm ?? null,
    most,
    landings: there.map(({ name, row }) => ({ name, landing: row === null ? 'none' : landing(row) })),
  };
}

/** What separates a draft from another; null where it is less than the model can tell. */
export interface DraftDifference {
  /** By how much its band of landing lies higher, and is wider [rpm]. */
  readonly shift: number | null;
  readonly wider: number | null;
  /** It lands the wave nowhere, and the other does. */
  readonly landsNowhere: boolean;
  /** What it gains in best torque [Nm] and in best power [kW]. */
  readonly torque: number | null;
  readonly power: number | null;
}

/** Least differences that are told [rpm], [Nm, kW]. */
const LEAST_SPEED = 100;
const LEAST_GAIN = 0.1;

export function differenceBetween(first: DraftSummary, other: DraftSummary): DraftDifference {
  const span = ({ usefulFrom, usefulTo }: DraftSummary): SpeedSpan | null =>
    usefulFrom === null || usefulTo === null ? null : { from: usefulFrom, to: usefulTo };
  const [was, is] = [span(first), span(other)];
  const told = (change: number | null, least: number): number | null =>
    change === null || Math.abs(change) < least ? null : change;
  const gain = (a: number | null, b: number | null): number | null =>
    told(a === null || b === null ? null : b - a, LEAST_GAIN);
  return {
    shift: told(was && is && (is.from + is.to - was.from - was.to) / 2, LEAST_SPEED),
    wider: told(was && is && is.to - is.from - (was.to - was.from), LEAST_SPEED),
    landsNowhere: is === null && was !== null,
    torque: gain(first.peakTorque, other.peakTorque),
    power: gain(first.peakPower, other.peakPower),
  };
}
