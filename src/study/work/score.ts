/**
 * The score of a draft from the rows of its sweep: a weighted sum of named terms, more is better. Values, means and bands
 * are those that every verb tells.
 */

import { bandOf, widthOf } from '../../findings/band.ts';
import { curveOf, meanOver, valueAt } from '../../findings/curve.ts';
import { COLUMNS, type ColumnName, type SweepRow } from '../../findings/row.ts';
import type { ScoreTerm } from '../../model/study.ts';

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

export function scoreOf(terms: readonly ScoreTerm[], rows: readonly SweepRow[]): Scored {
  const readings: number[] = [];
  for (const term of terms) {
    const reading = termReading(term, rows);
    if (reading === null) return { ok: false, reason: `no ${termName(term).name} can be read` };
    readings.push(reading);
  }
  const score = terms.reduce((sum, term, k) => sum + term.weight * (readings[k] ?? 0), 0);
  return { ok: true, score, terms: readings };
}

function termReading(term: ScoreTerm, rows: readonly SweepRow[]): number | null {
  const at = (name: ColumnName, speed: number): number | null => valueAt(curveOf(rows, name), speed);
  switch (term.kind) {
    case 'averageTorque':
      return meanOver(curveOf(rows, 'torque_nm'), term.from, term.to);
    case 'averagePower':
      return meanOver(curveOf(rows, 'power_kw'), term.from, term.to);
    case 'torqueAt':
      return at('torque_nm', term.speed);
    case 'powerAt':
      return at('power_kw', term.speed);
    case 'leadAt': {
      const lead = at('plugback_lead_deg', term.speed);
      return lead === null ? null : -Math.abs(lead - term.wanted);
    }
    case 'bandWidth': {
      const { share } = term;
      return widthOf(bandOf(rows, term.of === 'torque' ? 'torque_nm' : 'power_kw', { share }));
    }
    case 'column':
      return at(term.name as ColumnName, term.speed);
  }
}
