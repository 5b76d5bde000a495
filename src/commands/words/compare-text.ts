/** Drafts side by side in words and a table, for the terminal. */

import { compareHeadline, differenceText, endWords, targetText } from '../../../plots/pages/compare-words.ts';
import type { SweepResult } from '../../engine/read/result.ts';
import {
  type CompareAnswer,
  type ComparedDraft,
  differenceBetween,
  type SummaryNumbers,
} from '../../findings/answers/compare.ts';
import type { SpeedSpan } from '../../findings/band.ts';
import { folded } from '../frame/folded.ts';
import { plainText } from '../frame/plain-text.ts';
import { type Column, tableText } from '../frame/table.ts';
import { pageWords } from './page-words.ts';

interface Line {
  readonly label: string;
  readonly draft: ComparedDraft;
  readonly values: SummaryNumbers;
  readonly isDifference: boolean;
}

export function compareText(
  { targetSpeed, band, drafts, target, best }: CompareAnswer,
  names: readonly string[],
  sweeps: readonly SweepResult[],
  colour: boolean,
): string {
  const first = (drafts[0] as ComparedDraft).summary;
  const lines = [...names.map(plainText), '', folded(pageWords(compareHeadline(best, drafts.length)))];
  if (target !== null) lines.push(folded(`At ${targetSpeed} rpm: ${pageWords(targetText(target))}`));
  for (const { summary } of drafts.slice(1)) {
    const said = differenceText(differenceBetween(first, summary));
    lines.push(folded(`${pageWords(summary.name)} against ${pageWords(first.name)}: ${pageWords(said)}.`));
  }
  lines.push('', folded(legend(targetSpeed, band)));
  const rows = drafts.flatMap((draft): Line[] => {
    const { name, ...values } = draft.summary;
    const { lessFirst } = draft;
    return [
      { label: pageWords(name), draft, values, isDifference: false },
      ...(lessFirst === null
        ? []
        : [{ label: '  less first', draft, values: lessFirst, isDifference: true }]),
    ];
  });
  lines.push(tableText(columns, rows, { colour }));
  const edges = drafts.map((one) => folded(pageWords(endWords(one)))).filter((line) => line !== '');
  const troubles = sweeps.flatMap(({ rows: swept, failures }, k) => [
    ...swept
      .filter((r) => !r.settled)
      .map((r) => `${pageWords(names[k] ?? '')}: ${r.speed_rpm} rpm did not settle.`),
    ...failures.map((f) => `${pageWords(names[k] ?? '')}: ${f.speedRpm} rpm failed: ${plainText(f.reason)}`),
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
