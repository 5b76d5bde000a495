/**
 * The score of a draft from the rows of its sweep: a weighted sum of named terms, more is better. Between the speeds that
 * were run readings go straight; a band's mean is the integral over it by the trapezoidal rule over its width.
 */

import { COLUMNS, type ColumnName, type SweepRow } from '../../findings/row.ts';
import type { ScoreTerm } from '../../model/study.ts';

/** A row as a journal brings it back: what was not a number is null. */
export type ReadRow = { readonly [K in ColumnName]: SweepRow[K] | null };

export type Scored =
  | { readonly ok: true; readonly score: number; readonly terms: readonly number[] }
  | { readonly ok: false; readonly reason: string };

/** What a term is called in tables, and the unit of its reading. */
export function termName(term: ScoreTerm): { readonly name: string; readonly unit: string } {
  switch (term.kind) {
    case 'averageTorque':
      return { name: `mean torque ${term.from} to ${term.to} rpm`, unit: 'Nm' };
    case 'averagePower':
      return { name: `mean power ${term.from} to ${term.to} rpm`, unit: 'kW' };
    case 'torqueAt':
      return { name: `torque at ${term.speed} rpm`, unit: 'Nm' };
    case 'powerAt':
      return { name: `power at ${term.speed} rpm`, unit: 'kW' };
    case 'leadAt':
      return { name: `lead off ${term.wanted} deg at ${term.speed} rpm`, unit: 'deg' };
    case 'bandWidth':
      return { name: `band above ${Math.round(100 * term.share)} % of ${term.of}`, unit: 'rpm' };
    case 'column':
      return { name: `${term.name} at ${term.speed} rpm`, unit: '' };
  }
}

/** What a score is called: its only term, or a sum of several. */
export function scoreName(terms: readonly ScoreTerm[]): { readonly name: string; readonly unit: string } {
  const [only] = terms;
  if (terms.length === 1 && only !== undefined && only.weight === 1) return termName(only);
  return { name: 'score', unit: '' };
}

/** The terms with their weights in words. */
export function scoreText(terms: readonly ScoreTerm[]): string {
  return terms
    .map((term) => {
      const { name, unit } = termName(term);
      return `${term.weight === 1 ? '' : `${term.weight} x `}${name}${unit === '' ? '' : ` [${unit}]`}`;
    })
    .join(' + ');
}

/** Columns that a score may read: those that hold numbers. */
export const SCORE_COLUMNS: readonly string[] = COLUMNS.map(({ name }) => name).filter(
  (name) => name !== 'settled',
);

export function scoreOf(terms: readonly ScoreTerm[], rows: readonly ReadRow[]): Scored {
  const readings: number[] = [];
  for (const term of terms) {
    const reading = termReading(term, rows);
    if (!Number.isFinite(reading)) return { ok: false, reason: `no ${termName(term).name} can be read` };
    readings.push(reading);
  }
  const score = terms.reduce((sum, term, k) => sum + term.weight * (readings[k] as number), 0);
  return { ok: true, score, terms: readings };
}

function termReading(term: ScoreTerm, rows: readonly ReadRow[]): number {
  switch (term.kind) {
    case 'averageTorque':
      return bandMean(curveOf(rows, 'torque_nm'), term.from, term.to);
    case 'averagePower':
      return bandMean(curveOf(rows, 'power_kw'), term.from, term.to);
    case 'torqueAt':
      return valueAt(curveOf(rows, 'torque_nm'), term.speed);
    case 'powerAt':
      return valueAt(curveOf(rows, 'power_kw'), term.speed);
    case 'leadAt':
      return -Math.abs(valueAt(curveOf(rows, 'plugback_lead_deg'), term.speed) - term.wanted);
    case 'bandWidth':
      return bandWidth(curveOf(rows, term.of === 'torque' ? 'torque_nm' : 'power_kw'), term.share);
    case 'column':
      return valueAt(curveOf(rows, term.name as ColumnName), term.speed);
  }
}

/** Points of a curve over speed, ascending. */
export type Curve = readonly (readonly [speed: number, value: number])[];

export function curveOf(rows: readonly ReadRow[], column: ColumnName): Curve {
  return rows.map((row) => {
    const value = row[column];
    return [row.speed_rpm as number, typeof value === 'number' ? value : Number.NaN] as const;
  });
}

/** Value at a speed, straight between the points; NaN beyond them. */
export function valueAt(curve: Curve, speed: number): number {
  for (const [index, [at, value]] of curve.entries()) {
    if (at === speed) return value;
    if (at < speed) continue;
    const before = curve[index - 1];
    if (before === undefined) return Number.NaN;
    return before[1] + ((speed - before[0]) / (at - before[0])) * (value - before[1]);
  }
  return Number.NaN;
}

function bandMean(curve: Curve, from: number, to: number): number {
  const inside = curve.filter(([speed]) => speed > from && speed < to);
  const points: Curve = [[from, valueAt(curve, from)], ...inside, [to, valueAt(curve, to)]];
  let area = 0;
  for (let k = 1; k < points.length; k += 1) {
    const [[a, p], [b, q]] = [points[k - 1] as Curve[number], points[k] as Curve[number]];
    area += 0.5 * (b - a) * (p + q);
  }
  return area / (to - from);
}

/** Width of the stretch round the best in which the curve stays above a share of it [rpm]. */
export function bandWidth(curve: Curve, share: number): number {
  const best = curve.reduce((a, [, value], k) => (value > (curve[a] as Curve[number])[1] ? k : a), 0);
  const level = share * (curve[best]?.[1] ?? Number.NaN);
  if (!(level > 0)) return Number.NaN;
  const edge = (step: 1 | -1): number => {
    for (let k = best; ; k += step) {
      const [here, next] = [curve[k] as Curve[number], curve[k + step]];
      if (next === undefined) return here[0];
      if (next[1] >= level) continue;
      return here[0] + ((here[1] - level) / (here[1] - next[1])) * (next[0] - here[0]);
    }
  };
  return edge(1) - edge(-1);
}
