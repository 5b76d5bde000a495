/** What stands in a reconciled engine's file beside its values: a note on top, and a comment behind each. */

import type { WrittenInput } from '../../case/engine-document.ts';
import { type ReconcileReport, splitCentral } from './report.ts';

const short = (value: number | null): string => (value === null ? '-' : String(Number(value.toPrecision(4))));

/** Inputs of the engine with what became of their ranges. */
export function writtenInputs({ central, answer }: ReconcileReport): readonly WrittenInput[] {
  return splitCentral(central).engine.map((set) => {
    const path = set.slice(0, set.indexOf('='));
    const one = answer.inputs.find((input) => input.path === path)!;
    const before = `${short(one.before.p05)} to ${short(one.before.p95)} before`;
    const after = `${short(one.after.p05)} to ${short(one.after.p95)} after`;
    const silent = answer.untold.includes(path) ? '; the data do not tell' : '';
    return { set, comment: `reconciled: ${before}, ${after}${silent}` };
  });
}

export function engineNote({ program, name, files, answer, central, members }: ReconcileReport): string {
  const { others } = splitCentral(central);
  const lines = [
    `${name}, reconciled with ${files.join(', ')} by ${program}.`,
    `Middles of ${members.whole} members; ranges are from 5 to 95 % of them. members.csv has them all.`,
  ];
  if (answer.verdict === 'not explained')
    lines.push(
      'NOT EXPLAINED: no inputs within their ranges explain what was measured. Do not build on this engine.',
    );
  if (others.length > 0)
    lines.push(
      'What belongs to the pipe and to the run is no part of this file:',
      ...others.map((one) => `  --set "${one}"`),
    );
  return lines.join('\n');
}
