/** A reconciliation in the terminal: the answer, and the inputs of which the data told. */

import { reconcileHeadline, reconcileLines, shortPath } from '../../../plots/pages/reconcile-words.ts';
import type { ReconcileAnswer, ReconciledInput } from '../../findings/answers/reconcile.ts';
import { folded } from '../frame/folded.ts';
import { type Column, tableText } from '../frame/table.ts';
import { terminalWords } from './page-words.ts';

/** Inputs shown; the page has all. */
const SHOWN = 10;

const short = (value: number | null): string => (value === null ? '-' : String(Number(value.toPrecision(3))));

const columns: readonly Column<ReconciledInput>[] = [
  { header: 'Input', align: 'left', text: ({ path }) => shortPath(path) },
  { header: 'before', text: ({ before }) => `${short(before.p05)}..${short(before.p95)}` },
  { header: 'after', text: ({ after }) => `${short(after.p05)}..${short(after.p95)}` },
  { header: 'unit', align: 'left', optional: true, text: ({ unit }) => unit },
  { header: 'moved', unit: 'ranges', text: ({ moved }) => `${moved > 0 ? '+' : ''}${moved.toFixed(2)}` },
  { header: 'left', unit: '%', text: ({ narrowed }) => (100 * narrowed).toFixed(0) },
];

export function reconcileText(answer: ReconcileAnswer): string {
  const byPath = new Map(answer.inputs.map((one) => [one.path, one]));
  const rows = answer.told.slice(0, SHOWN).map((path) => byPath.get(path)!);
  const lines = reconcileLines(answer).map(({ label, text }) => folded(terminalWords(`${label}: ${text}`)));
  const table = rows.length === 0 ? '' : `\n${tableText(columns, rows)}`;
  return `${folded(terminalWords(`${reconcileHeadline(answer)}.`))}\n\n${lines.join('\n')}\n${table}`;
}
