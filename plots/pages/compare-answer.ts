/**
 * Drafts side by side in numbers and words. Band width is the span of computed speeds around the best at which a curve
 * stays above 90 % of it; the average torque is that over a stated band, by trapezes.
 */

import { type Landing, landing, usefulBands } from '../figures/landing.ts';
import { type Column, column, highest, nearest, type SpeedRow } from '../figures/sweep-row.ts';
import { degrees, fixed, kilowatts, newtonMetres, rpm, speed, thin } from '../theme/numbers.ts';

export interface DraftSummary {
  readonly name: string;
  readonly peakTorque: number | null;
  readonly peakTorqueSpeed: number | null;
  readonly peakPower: number | null;
  readonly peakPowerSpeed: number | null;
  readonly torqueBand: number | null;
  readonly powerBand: number | null;
  readonly averageTorque: number | null;
  readonly leadAtTarget: number | null;
  readonly usefulFrom: number | null;
  readonly usefulTo: number | null;
}

export interface SpeedSpan {
  readonly from: number;
  readonly to: number;
}

/** Drafts that one comparison takes at most. */
export const mostDrafts = 8;

/** The unbroken run of computed speeds about the best above 90 % of it [rpm]. */
export function bandOf(rows: readonly SpeedRow[], name: Column): SpeedSpan | null {
  const best = highest(rows, name);
  if (!best) return null;
  const values = column(rows, name);
  const level = 0.9 * Number(best[name]);
  const middle = rows.indexOf(best);
  let low = middle;
  let high = middle;
  while (low > 0 && (values[low - 1] ?? Number.NEGATIVE_INFINITY) >= level) low--;
  while (high < rows.length - 1 && (values[high + 1] ?? Number.NEGATIVE_INFINITY) >= level) high++;
  return { from: rows[low]?.speed_rpm ?? 0, to: rows[high]?.speed_rpm ?? 0 };
}

/** Width of that run [rpm]. */
export function bandWidth(rows: readonly SpeedRow[], name: Column): number | null {
  const band = bandOf(rows, name);
  return band === null ? null : band.to - band.from;
}

/** Value of a column at a speed, linear between the computed ones; null outside. */
export function valueAt(rows: readonly SpeedRow[], name: Column, at: number): number | null {
  const values = column(rows, name);
  for (let i = 0; i < rows.length; i++) {
    const here = rows[i]?.speed_rpm ?? 0;
    const value = values[i] ?? null;
    if (here === at) return value;
    const next = rows[i + 1]?.speed_rpm;
    const nextValue = values[i + 1] ?? null;
    if (next !== undefined && here < at && at < next && value !== null && nextValue !== null)
      return value + ((at - here) / (next - here)) * (nextValue - value);
  }
  return null;
}

function averageTorque(rows: readonly SpeedRow[], band: SpeedSpan | null): number | null {
  if (!band || band.to <= band.from) return null;
  const steps = 40;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const value = valueAt(rows, 'torque_nm', band.from + ((band.to - band.from) * i) / steps);
    if (value === null) return null;
    sum += value * (i === 0 || i === steps ? 0.5 : 1);
  }
  return sum / steps;
}

export function summarise(
  name: string,
  rows: readonly SpeedRow[],
  targetSpeed: number | null,
  band: SpeedSpan | null,
): DraftSummary {
  const torque = highest(rows, 'torque_nm');
  const power = highest(rows, 'power_kw');
  const useful = usefulBands(rows)[0];
  return {
    name,
    peakTorque: torque?.torque_nm ?? null,
    peakTorqueSpeed: torque?.speed_rpm ?? null,
    peakPower: power?.power_kw ?? null,
    peakPowerSpeed: power?.speed_rpm ?? null,
    torqueBand: bandWidth(rows, 'torque_nm'),
    powerBand: bandWidth(rows, 'power_kw'),
    averageTorque: averageTorque(rows, band),
    leadAtTarget: targetSpeed === null ? null : valueAt(rows, 'plugback_lead_deg', targetSpeed),
    usefulFrom: useful?.from ?? null,
    usefulTo: useful?.to ?? null,
  };
}

/** What separates a draft from the first, one sentence. */
export function difference(first: DraftSummary, other: DraftSummary): string {
  const parts: string[] = [];
  if (
    first.usefulFrom !== null &&
    first.usefulTo !== null &&
    other.usefulFrom !== null &&
    other.usefulTo !== null
  ) {
    const shift = (other.usefulFrom + other.usefulTo - first.usefulFrom - first.usefulTo) / 2;
    if (Math.abs(shift) >= 100)
      parts.push(`holds the plug-back ${speed(Math.abs(shift))}${thin}rpm ${shift < 0 ? 'lower' : 'higher'}`);
    const wider = other.usefulTo - other.usefulFrom - (first.usefulTo - first.usefulFrom);
    if (Math.abs(wider) >= 100)
      parts.push(`over a span ${speed(Math.abs(wider))}${thin}rpm ${wider > 0 ? 'wider' : 'narrower'}`);
  } else if (other.usefulFrom === null && first.usefulFrom !== null)
    parts.push('nowhere lands the wave as wanted');
  const gain = (a: number | null, b: number | null, unit: string, what: string, least: number): void => {
    if (a === null || b === null || Math.abs(b - a) < least) return;
    parts.push(`${b > a ? 'gains' : 'loses'} ${fixed(Math.abs(b - a), 1)}${thin}${unit} ${what}`);
  };
  gain(first.peakTorque, other.peakTorque, 'Nm', 'of best torque', 0.1);
  gain(first.peakPower, other.peakPower, 'kW', 'at the top', 0.1);
  return parts.length === 0 ? 'no difference that the model can tell' : parts.join('; ');
}

export function compareHeadline(summaries: readonly DraftSummary[]): string {
  const most = summaries.reduce<DraftSummary | undefined>(
    (best, one) => ((one.peakPower ?? 0) > (best?.peakPower ?? 0) ? one : best),
    undefined,
  );
  const broad = summaries.reduce<DraftSummary | undefined>(
    (best, one) => ((one.torqueBand ?? 0) > (best?.torqueBand ?? 0) ? one : best),
    undefined,
  );
  if (!most || !broad) return 'No draft was finished.';
  const power = `${kilowatts(most.peakPower)} at ${rpm(most.peakPowerSpeed)}`;
  return most === broad
    ? `“${most.name}” has both the most power, ${power}, and the broadest torque, ${rpm(broad.torqueBand)} wide.`
    : `“${most.name}” has the most power, ${power}; “${broad.name}” the broadest torque, ${rpm(broad.torqueBand)} wide.`;
}

/** Which draft serves the target speed: most torque there, and where each draft's wave lands. */
export function targetText(
  drafts: readonly { readonly name: string; readonly rows: readonly SpeedRow[] }[],
  targetSpeed: number,
): string {
  const there = drafts.map(({ name, rows }) => {
    const row = nearest(rows, targetSpeed);
    const lands: Landing = row === undefined ? 'none' : landing(row);
    return { name, lands, torque: valueAt(rows, 'torque_nm', targetSpeed) ?? Number.NEGATIVE_INFINITY };
  });
  const best = there.reduce((most, one) => (one.torque > most.torque ? one : most));
  const most = Number.isFinite(best.torque)
    ? `Most torque with ${best.name}, ${newtonMetres(best.torque)}`
    : 'Not among the computed speeds';
  const where = (['lands', 'early', 'late', 'none'] as const).flatMap((kind) => {
    const names = there.filter(({ lands }) => lands === kind).map(({ name }) => name);
    return names.length === 0 ? [] : [`${verdicts[kind]} with ${names.join(', ')}`];
  });
  return `${most}. The wave ${where.join(', ')}.`;
}

export const verdicts = {
  lands: 'lands as wanted',
  early: 'comes too early',
  late: 'comes too late',
  none: 'is not found',
} as const;

/** The peak against exhaust closing (EC). */
export const leadText = (lead: number | null): string =>
  lead === null ? '–' : `${degrees(Math.abs(lead))} ${lead >= 0 ? 'before' : 'after'} EC`;

/** The speeds at which the wave lands as wanted. */
export const usefulText = ({ usefulFrom, usefulTo }: DraftSummary): string =>
  usefulFrom === null || usefulTo === null
    ? 'nowhere'
    : usefulFrom === usefulTo
      ? speed(usefulFrom)
      : `${speed(usefulFrom)}–${speed(usefulTo)}`;
