/** Drafts side by side in words and a table, for the terminal. */

import { chancesText } from '../../../plots/pages/chances-words.ts';
import {
  compareHeadline,
  differenceText,
  endWords,
  targetText,
  unfinishedText,
} from '../../../plots/pages/compare-words.ts';
import type { SweepResult } from '../../engine/read/result.ts';
import type { CompareAnswer } from '../../findings/answers/compare.ts';
import type { ComparedDraft, SummaryNumbers } from '../../findings/answers/compare-summary.ts';
import type { SpeedSpan } from '../../findings/band.ts';
import type { DraftChances } from '../../findings/member-chances.ts';
import { folded } from '../frame/folded.ts';
import { plainText } from '../frame/plain-text.ts';
import { type Column, tableText } from '../frame/table.ts';
import { terminalWords } from './page-words.ts';

interface Line {
  readonly label: string;
  readonly draft: ComparedDraft;
  readonly values: SummaryNumbers;
  readonly isDifference: boolean;
}

export function compareText(
  answer: CompareAnswer,
  of: {
    readonly names: readonly string[];
    readonly sweeps: readonly SweepResult[];
    /** What to mind, and where they were not computed alike. */
    readonly notes: readonly string[];
    /** In how many members a draft beats the first; empty: not asked for. */
    readonly chances: readonly DraftChances[];
    readonly colour: boolean;
  },
): string {
  const { targetSpeed, band, drafts, target, best, differences, unfinished } = answer;
  const { names, sweeps, notes, chances, colour } = of;
  const lines = [...names.map(plainText), ''];
  for (const text of [unfinishedText(unfinished), compareHeadline(best, drafts.length)])
    if (text !== '') lines.push(folded(terminalWords(text)));
  if (target !== null) lines.push(folded(`At ${targetSpeed} rpm: ${terminalWords(targetText(target))}`));
  for (const { name, from, ...difference } of differences)
    lines.push(folded(terminalWords(`${name} against ${from}: ${differenceText(difference)}.`)));
  for (const one of chances)
    lines.push(folded(terminalWords(chancesText(one)).replace(/±/g, '+-').replace(/−/g, '-')));
  lines.push(...notes.map((note) => folded(terminalWords(note))));
  lines.push('', folded(legend(targetSpeed, band)));
  const rows = drafts.flatMap((draft): Line[] => {
    const { name, ...values } = draft.summary;
    const { lessFirst } = draft;
    return [
      { label: terminalWords(name), draft, values, isDifference: false },
      ...(lessFirst === null
        ? []
        : [{ label: '  less first', draft, values: lessFirst, isDifference: true }]),
    ];
  });
  lines.push(tableText(columns, rows, { colour }));
  const edges = drafts.map((one) => folded(terminalWords(endWords(one)))).filter((line) => line !== '');
  const troubles = sweeps.flatMap(({ rows: swept, failures }, k) => [
    ...swept
      .filter((r) => !r.settled)
      .map((r) => `${terminalWords(names[k] ?? '')}: ${r.speed_rpm} rpm did not settle.`),
    ...failures.map(
      (f) => `${terminalWords(names[k] ?? '')}: ${f.speedRpm} rpm failed: ${plainText(f.reason)}`,
    ),
  ]);
  return [...lines, ...edges, ...troubles].join('\n');
}

function legend(target: number | null, band: SpeedSpan | null): string {
  const parts = ['Bands: speeds above 90 % of the best torque, of the best power; >: it goes on beyond.'];
  if (band !== null) parts.push(`Mean: torque from ${band.from} to ${band.to} rpm.`);
  if (target !== null)
    parts.push(`Leads at ${target} rpm: degrees from the plug-back's middle and peak to exhaust closing.`);
  return parts.join(' ');
}

function cell(key: keyof SummaryNumbers, digits: number): (line: Line) => string {
  return ({ values, isDifference }) => {
    const value = values[key];
    if (value === null) return '-';
    const text = value.toFixed(digits);
    return isDifference && Number(text) > 0 ? `+${text}` : text;
  };
}

/** A band that goes on where the computed speeds end is wider than it is known to be. */
function band(key: 'torqueBand' | 'powerBand'): (line: Line) => string {
  return (line) => {
    const isOpen = !line.isDifference && line.draft[`${key}Open`];
    return `${isOpen ? '>' : ''}${cell(key, 0)(line)}`;
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
