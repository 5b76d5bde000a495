/** One draft of a comparison in numbers, and by how much they are more than another's. */

import { type Band, bandOf, landingBands, type SpeedSpan, widthOf } from '../band.ts';
import {
  atEndOfRange,
  type Computed,
  computedSpeeds,
  curveOf,
  highest,
  meanOver,
  middleLeadAt,
  valueAt,
} from '../curve.ts';
import type { SweepRow } from '../row.ts';

export interface NamedRows {
  readonly name: string;
  readonly rows: readonly SweepRow[];
  /** Speeds that were to be run [rpm]; absent: those of the rows. */
  readonly asked?: readonly number[];
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

export function less(one: DraftSummary, first: DraftSummary): SummaryNumbers {
  const { name: _, ...numbers } = one;
  const entries = Object.entries(numbers).map(([key, value]) => {
    const base = first[key as keyof SummaryNumbers];
    return [key, value === null || base === null ? null : value - base];
  });
  return Object.fromEntries(entries) as SummaryNumbers;
}
