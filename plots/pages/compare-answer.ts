/**
 * Drafts side by side in numbers and words. Band width is the span of computed speeds around the best at which a curve
 * stays above 90 % of it; the average torque is that over a stated band, by trapezes. Nobody wins by less than the
 * computed speeds can tell: two bands that differ by less than a step, two powers by less than a hundredth, are a tie.
 */

import { landingBands } from '../../src/findings/band.ts';
import { type Computed, column, computedSpeeds, highest, nearest } from '../../src/findings/curve.ts';
import { type Landing, landing, middleLead } from '../../src/findings/landing.ts';
import type { ColumnName, SweepRow } from '../../src/findings/row.ts';
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
  /** Exhaust closing less the peak of the plug-back, and less its middle [deg]. */
  readonly leadAtTarget: number | null;
  readonly middleLeadAtTarget: number | null;
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
export function bandOf(rows: readonly SweepRow[], name: ColumnName): SpeedSpan | null {
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
export function bandWidth(rows: readonly SweepRow[], name: ColumnName): number | null {
  const band = bandOf(rows, name);
  return band === null ? null : band.to - band.from;
}

/** Value of a column at a speed, linear between the computed ones; null outside. */
export const valueAt = (rows: readonly SweepRow[], name: ColumnName, at: number): number | null =>
  between(rows, column(rows, name), at);

/** How long before exhaust closing the middle of the plug-back lands at a speed [deg]. */
export const middleLeadAt = (rows: readonly SweepRow[], at: number): number | null =>
  between(
    rows,
    rows.map((row) => {
      const lead = middleLead(row);
      return lead !== null && Number.isFinite(lead) ? lead : null;
    }),
    at,
  );

function between(rows: readonly SweepRow[], values: readonly (number | null)[], at: number): number | null {
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

function averageTorque(rows: readonly SweepRow[], band: SpeedSpan | null): number | null {
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
  rows: readonly SweepRow[],
  targetSpeed: number | null,
  band: SpeedSpan | null,
): DraftSummary {
  const torque = highest(rows, 'torque_nm');
  const power = highest(rows, 'power_kw');
  const useful = landingBands(rows)[0];
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
    middleLeadAtTarget: targetSpeed === null ? null : middleLeadAt(rows, targetSpeed),
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
  gain(first.peakPower, other.peakPower, 'kW', 'of best power', 0.1);
  return parts.length === 0 ? 'no difference that the model can tell' : parts.join('; ');
}

/** A best at the first or last speed may be surpassed beyond it. */
const atEnd = (at: number | null, { first, last }: Computed): boolean => at === first || at === last;

/** `at least` before a best that lies at an end of the computed speeds. */
export const atLeast = (at: number | null, computed: Computed): string =>
  atEnd(at, computed) ? 'at least ' : '';

/** A band one speed wide is narrower than the two steps beside it. */
export const bandText = (width: number | null, { step }: Computed): string =>
  width === null ? '–' : width === 0 && step > 0 ? `under ${speed(2 * step)}` : speed(width);

/** Powers that differ by less than this share are a tie: the mesh moves them by as much. */
const tie = 0.01;

const namesOf = (drafts: readonly { readonly summary: DraftSummary }[]): string => {
  const quoted = drafts.map(({ summary }) => `“${summary.name}”`);
  return quoted.length < 2 ? (quoted[0] ?? '') : `${quoted.slice(0, -1).join(', ')} and ${quoted.at(-1)}`;
};

export interface ComparedDraft {
  readonly summary: DraftSummary;
  readonly computed: Computed;
}

export function compareHeadline(drafts: readonly ComparedDraft[]): string {
  const powers = drafts.map(({ summary }) => summary.peakPower ?? 0);
  const widths = drafts.map(({ summary }) => summary.torqueBand ?? 0);
  const [most, broad] = [Math.max(...powers), Math.max(...widths)];
  if (drafts.length === 0 || !(most > 0)) return 'No draft was finished.';
  const strong = drafts.filter((_, i) => (powers[i] ?? 0) > (1 - tie) * most);
  const wide = drafts.filter(({ computed }, i) => broad - (widths[i] ?? 0) < Math.max(1, computed.step));
  const first = strong.length === 1 ? strong[0] : drafts[powers.indexOf(most)];
  const at = first?.summary.peakPowerSpeed ?? null;
  const power = `${first === undefined ? '' : atLeast(at, first.computed)}${kilowatts(most)} at ${rpm(at)}`;
  const widest = wide[0];
  const width = widest === undefined ? '' : bandText(broad, widest.computed);
  if (strong.length === 1 && wide.length === 1 && strong[0] === wide[0])
    return `${namesOf(strong)} has both the most power, ${power}, and the broadest torque, ${width}${thin}rpm wide.`;
  const powerful =
    strong.length === 1
      ? `${namesOf(strong)} has the most power, ${power}`
      : `${strong.length === drafts.length ? 'All' : namesOf(strong)} share the most power, ${power}`;
  const broadest =
    wide.length === 1
      ? `${namesOf(wide)} the broadest torque, ${width}${thin}rpm wide`
      : wide.length === drafts.length
        ? 'their torque is equally broad to a step of speed'
        : `${namesOf(wide)} share the broadest torque`;
  return `${powerful}; ${broadest}.`;
}

/** A best at the first or last computed speed is the best of those asked for only. */
export function endWords({ summary, computed }: ComparedDraft): string {
  const cut = [
    ...(atEnd(summary.peakTorqueSpeed, computed) ? ['torque'] : []),
    ...(atEnd(summary.peakPowerSpeed, computed) ? ['power'] : []),
  ];
  return cut.length === 0
    ? ''
    : `${summary.name}: most ${cut.join(' and ')} at the end of the range; the best may lie beyond.`;
}

/** Which draft serves the target speed: most torque there, and where each draft's wave lands. */
export function targetText(
  drafts: readonly { readonly name: string; readonly rows: readonly SweepRow[] }[],
  targetSpeed: number,
): string {
  const there = drafts.map(({ name, rows }) => {
    const row = nearest(rows, targetSpeed);
    const lands: Landing = row === null ? 'none' : landing(row);
    return { name, lands, torque: row?.torque_nm ?? Number.NEGATIVE_INFINITY, at: row?.speed_rpm ?? 0 };
  });
  const { first, last, step } = computedSpeeds(drafts[0]?.rows ?? []);
  if (targetSpeed < first - step / 2 || targetSpeed > last + step / 2)
    return 'Not among the computed speeds; name it with --rpm.';
  const stand = there[0]?.at ?? targetSpeed;
  const computed = stand === targetSpeed ? '' : `At ${rpm(stand)}, the nearest computed: `;
  const best = there.reduce((most, one) => (one.torque > most.torque ? one : most));
  const most = Number.isFinite(best.torque)
    ? `Most torque with ${best.name}, ${newtonMetres(best.torque)}`
    : 'No torque was computed there';
  const where = (['lands', 'early', 'late', 'none'] as const).flatMap((kind) => {
    const names = there.filter(({ lands }) => lands === kind).map(({ name }) => name);
    return names.length === 0 ? [] : [`${verdicts[kind]} with ${names.join(', ')}`];
  });
  return `${computed}${most}. The wave ${where.join(', ')}.`;
}

export const verdicts = {
  lands: 'lands as wanted',
  early: 'comes too early',
  late: 'comes too late',
  none: 'is not found',
} as const;

/** A crank angle against exhaust closing (EC). */
export const leadText = (lead: number | null): string =>
  lead === null ? '–' : `${degrees(Math.abs(lead))} ${lead >= 0 ? 'before' : 'after'} EC`;

/** The speeds at which the wave lands as wanted. */
export const usefulText = ({ usefulFrom, usefulTo }: DraftSummary): string =>
  usefulFrom === null || usefulTo === null
    ? 'nowhere'
    : usefulFrom === usefulTo
      ? speed(usefulFrom)
      : `${speed(usefulFrom)}–${speed(usefulTo)}`;
