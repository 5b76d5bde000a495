/** Drafts side by side in words and a table, for the terminal. */

import {
  bandOf,
  compareHeadline,
  type DraftSummary,
  difference,
  endWords,
  type SpeedSpan,
  summarise,
  targetText,
} from '../../../plots/pages/compare-answer.ts';
import type { SweepResult } from '../../engine/read/result.ts';
import { type Computed, computedSpeeds } from '../../findings/curve.ts';
import { folded } from '../frame/folded.ts';
import { plainText } from '../frame/plain-text.ts';
import { type Column, tableText } from '../frame/table.ts';
import { pageWords } from './page-words.ts';

/** Half the band of the average where only a target is stated [rpm]. */
const HALF_BAND = 1000;

export interface Comparison {
  readonly targetSpeed: number | null;
  readonly band: SpeedSpan | null;
  readonly summaries: readonly DraftSummary[];
  /** Numbers of each draft less those of the first; of the first null. */
  readonly differences: readonly (Differences | null)[];
}

type Numbers = Omit<DraftSummary, 'name'>;
export type Differences = { readonly [Name in keyof Numbers]: number | null };

/** Summaries over a band; without one the target's neighbourhood, or the first draft's band of torque. */
export function comparison(
  names: readonly string[],
  sweeps: readonly SweepResult[],
  stated: SpeedSpan | null,
): Comparison {
  const targetSpeed = sweeps[0]?.case.run.targetSpeed ?? null;
  const band = stated ?? usualBand(sweeps, targetSpeed);
  const summaries = sweeps.map(({ rows }, k) => summarise(names[k] as string, rows, targetSpeed, band));
  const first = summaries[0];
  return {
    targetSpeed,
    band,
    summaries,
    differences: summaries.map((one, k) => (k === 0 || first === undefined ? null : less(one, first))),
  };
}

function usualBand(sweeps: readonly SweepResult[], target: number | null): SpeedSpan | null {
  const wanted =
    target === null
      ? bandOf(sweeps[0]?.rows ?? [], 'torque_nm')
      : { from: target - HALF_BAND, to: target + HALF_BAND };
  if (wanted === null) return null;
  const from = Math.max(wanted.from, ...sweeps.map(({ rows }) => rows[0]?.speed_rpm ?? 0));
  const to = Math.min(wanted.to, ...sweeps.map(({ rows }) => rows.at(-1)?.speed_rpm ?? 0));
  return to > from ? { from, to } : null;
}

function less(one: DraftSummary, first: DraftSummary): Differences {
  const { name: _, ...numbers } = one;
  const entries = Object.entries(numbers).map(([key, value]) => {
    const base = first[key as keyof Numbers];
    return [key, value === null || base === null ? null : value - base];
  });
  return Object.fromEntries(entries) as Differences;
}

interface Line {
  readonly label: string;
  readonly computed: Computed;
  readonly values: Differences;
  readonly isDifference: boolean;
}

export function compareText(
  { targetSpeed, band, summaries, differences }: Comparison,
  names: readonly string[],
  sweeps: readonly SweepResult[],
  colour: boolean,
): string {
  const first = summaries[0] as DraftSummary;
  const compared = summaries.map((summary, k) => ({
    summary,
    computed: computedSpeeds(sweeps[k]?.rows ?? []),
  }));
  const lines = [...names.map(plainText), '', folded(pageWords(compareHeadline(compared)))];
  if (targetSpeed !== null) {
    const drafts = sweeps.map(({ rows }, k) => ({
      name: summaries[k]?.name ?? '',
      rows,
    }));
    lines.push(folded(`At ${targetSpeed} rpm: ${pageWords(targetText(drafts, targetSpeed))}`));
  }
  for (const one of summaries.slice(1))
    lines.push(
      folded(
        `${pageWords(one.name)} against ${pageWords(first.name)}: ${pageWords(difference(first, one))}.`,
      ),
    );
  lines.push('', folded(legend(targetSpeed, band)));
  const rows = summaries.flatMap((one, k): Line[] => {
    const { name, ...values } = one;
    const change = differences[k];
    const { computed } = compared[k] as (typeof compared)[0];
    return [
      { label: pageWords(name), computed, values, isDifference: false },
      ...(change == null ? [] : [{ label: '  less first', computed, values: change, isDifference: true }]),
    ];
  });
  lines.push(tableText(columns, rows, { colour }));
  const edges = compared.map((one) => folded(pageWords(endWords(one)))).filter((line) => line !== '');
  const troubles = sweeps.flatMap(({ rows: swept, failures }, k) => [
    ...swept
      .filter((r) => !r.settled)
      .map((r) => `${pageWords(names[k] ?? '')}: ${r.speed_rpm} rpm did not settle.`),
    ...failures.map((f) => `${pageWords(names[k] ?? '')}: ${f.speedRpm} rpm failed: ${plainText(f.reason)}`),
  ]);
  return [...lines, ...edges, ...troubles].join('\n');
}

function legend(target: number | null, band: SpeedSpan | null): string {
  const parts = ['Bands: speeds above 90 % of the best torque, of the best power.'];
  if (band !== null) parts.push(`Mean: torque from ${band.from} to ${band.to} rpm.`);
  if (target !== null)
    parts.push(`Leads at ${target} rpm: degrees from the plug-back's middle and peak to exhaust closing.`);
  return parts.join(' ');
}

function cell(key: keyof Numbers, digits: number): (line: Line) => string {
  return ({ values, isDifference }) => {
    const value = values[key];
    if (value === null || !Number.isFinite(value)) return '-';
    const text = value.toFixed(digits);
    return isDifference && Number(text) > 0 ? `+${text}` : text;
  };
}

/** A band one speed wide is narrower than two steps. */
function band(key: 'torqueBand' | 'powerBand'): (line: Line) => string {
  return (line) => {
    const { values, isDifference, computed } = line;
    const narrow = !isDifference && values[key] === 0 && computed.step > 0;
    return narrow ? `<${2 * computed.step}` : cell(key, 0)(line);
  };
}

const columns: readonly Column<Line>[] = [
  { header: 'Draft', align: 'left', text: ({ label }) => label },
  { header: 'torque', unit: 'Nm', text: cell('peakTorque', 1) },
  { header: 'at', unit: 'rpm', text: cell('peakTorqueSpeed', 0) },
  { header: 'power', unit: 'kW', text: cell('peakPower', 1) },
  { header: 'at', unit: 'rpm', text: cell('peakPowerSpeed', 0) },
  { header: 'band T', unit: 'rpm', text: band('torqueBand') },
  { header: 'band P', unit: 'rpm', text: band('powerBand') },
  { header: 'mean', unit: 'Nm', text: cell('averageTorque', 1) },
  { header: 'middle', unit: 'deg', text: cell('middleLeadAtTarget', 1) },
  { header: 'peak', unit: 'deg', text: cell('leadAtTarget', 1) },
];
