/** The aim page: the pipe before and after, how safe the new one is, and how the search went. */

import { type BothWays, safetyOf } from '../../src/findings/answers/aim.ts';
import { curveOf, middleLeadAt, rowFor, valueAt } from '../../src/findings/curve.ts';
import { landing } from '../../src/findings/landing.ts';
import type { OutlineSection } from '../../src/findings/record.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import type { NamedBar } from '../figures/bars.ts';
import type { SweptDraft } from '../figures/draft-curves.ts';
import { namedOutlines } from '../figures/outline-drawing.ts';
import type { SearchedDraft } from '../figures/search-history.ts';
import { html } from '../theme/markup.ts';
import { fixed, newtonMetres, rpm, speed, THIN } from '../theme/numbers.ts';
import { safetyText } from './aim-words.ts';
import { leadText, verdicts } from './compare-words.ts';
import { dimensionTable } from './dimension-table.ts';
import { type Finding, findings } from './parts.ts';
import { type Assets, place, sheet } from './sheet.ts';
import { stretchMm } from './stretch-mm.ts';
import { cautions } from './sweep-sections.ts';
import { unsettledText } from './unsettled.ts';

export interface AimedPipe {
  readonly name: string;
  readonly outline: readonly OutlineSection[];
  readonly rows: readonly SweepRow[];
}

export interface AimPageResult {
  readonly program: string;
  readonly caseName: string;
  readonly targetSpeed: number;
  /** Half the band of the mean torque [rpm]. */
  readonly halfBand: number;
  readonly score: { readonly name: string; readonly unit: string };
  readonly scoreBefore: number | null;
  readonly scoreAfter: number | null;
  readonly before: AimedPipe;
  /** Rounded to whole millimetres, as it is in the new file. */
  readonly after: AimedPipe;
  /** The handbook's pipe that the search began with; null: it began with the one before. */
  readonly start: AimedPipe | null;
  readonly newFile: string;
  readonly changes: readonly {
    readonly name: string;
    readonly unit: string;
    readonly before: number;
    readonly after: number;
    /** The limit it came to rest on, if it did. */
    readonly limit?: string;
  }[];
  readonly sensitivities: readonly (BothWays & {
    /** Of the middle of the plug-back against exhaust closing. */
    readonly leadLessDeg: number;
    readonly leadMoreDeg: number;
    readonly powerLessKw: number;
    readonly powerMoreKw: number;
  })[];
  readonly history: readonly SearchedDraft[];
  readonly startedFrom: 'handbook' | 'draft';
  /** Why the search ended. */
  readonly end: string;
  /** Active constraints, or why nothing better was found. */
  readonly limits: readonly string[];
}

export interface AimPageData {
  readonly drafts: readonly SweptDraft[];
  readonly targetSpeed: number;
  readonly lead: readonly NamedBar[];
  readonly torque: readonly NamedBar[];
  readonly power: readonly NamedBar[];
  readonly history: readonly SearchedDraft[];
  readonly scoreName: string;
}

interface AtTarget {
  readonly torque: number | null;
  readonly middle: number | null;
  readonly lands: string;
}

function at({ rows }: AimedPipe, targetSpeed: number): AtTarget {
  const row = rowFor(rows, targetSpeed);
  return {
    torque: valueAt(curveOf(rows, 'torque_nm'), targetSpeed),
    middle: middleLeadAt(rows, targetSpeed),
    lands: verdicts[row === null ? 'none' : landing(row)],
  };
}

const fromTo = (before: string, after: string): string => `${before} → ${after}`;

/** The largest changes, and whether it is the same pipe trimmed or another one. */
function changeText({ changes, startedFrom, start }: AimPageResult): string {
  const told = [...changes]
    .filter(({ before, after }) => number(before) !== number(after))
    .sort((a, b) => Math.abs(b.after - b.before) - Math.abs(a.after - a.before))
    .slice(0, 3)
    .map((one) => `${one.name} ${fromTo(number(one.before), number(one.after))}${THIN}${one.unit}`);
  if (told.length === 0) return 'Nothing.';
  const header = start?.outline.find(({ role }) => role === 'header');
  const origin =
    startedFrom === 'handbook' && start !== null
      ? ` Another pipe, not the given one trimmed: the search began from the handbook’s proportions${header === undefined ? '' : `, with a header of ${fixed(1000 * (header.end - header.start), 0)}${THIN}mm`}.`
      : '';
  return `Most of all ${told.join(', ')}; all dimensions stand in the table below.${origin}`;
}

/** The pipes as they are told of: before, after, and what the search began with. */
function pipesOf({ before, after, start }: AimPageResult): readonly AimedPipe[] {
  return [
    { ...before, name: `before: ${before.name}` },
    { ...after, name: 'the new pipe' },
    ...(start === null ? [] : [{ ...start, name: 'handbook’s, the search’s start' }]),
  ];
}

export function aimPage(result: AimPageResult, assets: Assets): string {
  const { targetSpeed } = result;
  const before = at(result.before, targetSpeed);
  const after = at(result.after, targetSpeed);
  const safe = safetyOf(result);
  const { how, advice } = safetyText(safe);
  const gained = before.torque !== null && after.torque !== null ? after.torque - before.torque : null;
  const headline =
    gained === null
      ? `A pipe for ${rpm(targetSpeed)}.`
      : gained > 0.05
        ? `The new pipe gains ${newtonMetres(gained)} at ${rpm(targetSpeed)}${safe?.onEdge ? ', but stands near an edge' : ''}.`
        : `No better pipe than the first was found at ${rpm(targetSpeed)}.`;
  const lines: readonly Finding[] = [
    { label: 'What to change', text: changeText(result), way: true },
    {
      label: `At ${rpm(targetSpeed)}`,
      text: `Torque ${fromTo(newtonMetres(before.torque), newtonMetres(after.torque))}. The middle of the plug-back ${fromTo(leadText(before.middle), leadText(after.middle))} (exhaust closing): it ${fromTo(before.lands, after.lands)}.`,
    },
    { label: 'How safe', text: how },
    ...(advice === '' ? [] : [{ label: 'What to do', text: advice, way: true }]),
    ...(result.limits.length === 0
      ? []
      : [{ label: 'What limits', text: `${result.limits.join('; ')}: nothing beyond was tried.` }]),
    {
      label: 'The search',
      text: `${result.history.length} drafts, begun from ${result.startedFrom === 'handbook' ? 'the handbook’s pipe' : 'the given pipe'}; it ended because ${result.end}.`,
    },
    { label: 'New pipe file', text: result.newFile },
  ];
  const pipes = pipesOf(result);
  const outlines = pipes.map(({ name, outline }) => ({ name, outline: outline.map(stretchMm) }));
  const doubtful = unsettledText(pipes);
  const scoreName = `${result.score.name}${result.score.unit === '' ? '' : ` [${result.score.unit}]`}`;
  const bars = (
    less: 'leadLessDeg' | 'torqueLessNm' | 'powerLessKw',
    more: 'leadMoreDeg' | 'torqueMoreNm' | 'powerMoreKw',
  ) =>
    result.sensitivities.map(
      (one): NamedBar => ({
        name: `${one.name}, ${one.step.replace(' ', THIN)}`,
        values: [one[less], one[more]],
      }),
    );
  const data: AimPageData = {
    drafts: [
      { name: 'before', rows: result.before.rows },
      { name: 'new', rows: result.after.rows },
      ...(result.start === null ? [] : [{ name: 'handbook’s', rows: result.start.rows }]),
    ],
    targetSpeed,
    lead: bars('leadLessDeg', 'leadMoreDeg'),
    torque: bars('torqueLessNm', 'torqueMoreNm'),
    power: bars('powerLessKw', 'powerMoreKw'),
    history: result.history,
    scoreName,
  };
  const twoBars = 'Upper bar, hollow: so much less; lower bar, full: so much more. Each as it was computed.';
  return sheet({
    title: `${result.caseName} – aimed at ${targetSpeed} rpm`,
    titleBlock: [
      ['Case', result.caseName],
      ['Target', rpm(targetSpeed)],
      [
        `Mean torque ${speed(targetSpeed - result.halfBand)}–${rpm(targetSpeed + result.halfBand)}`,
        `${fromTo(number(result.scoreBefore), number(result.scoreAfter))}${THIN}Nm`,
      ],
      ['Drafts computed', String(result.history.length)],
      ['Program', result.program, 'minor'],
    ],
    body: html`<section class="answer"><div><h1>${headline}</h1>${findings(lines)}</div><div>${namedOutlines(outlines)}</div></section>${doubtful && html`<p class="warn">${doubtful}</p>`}
<section><h2>Dimensions</h2>${dimensionTable(outlines)}</section>
<section><h2>Before and after over engine speed</h2>${place('curves', 'Middle of the plug-back, torque and power', 'The upright dotted line is the target. The wave is wanted between EC, exhaust closing, and TC, transfer closing: above TC it works against the transfer streams, below EC it meets a closed port. A cross marks a speed whose cycles did not settle.', 'Better at the target and poor beside it: ask for an average over a band, or aim a step higher.', 'Middle of the plug-back before exhaust closing, torque and power before and after against engine speed.')}</section>
<section><h2>Why, and how near an edge</h2><div class="pair">${place('torque', 'Torque', `What a little less and a little more of each section does to the torque, at the target. ${twoBars}`, 'Both bars long and to the left: the pipe stands on a narrow peak.', 'Sensitivity of the torque.')}${place('lead', 'Middle of the plug-back', 'How far it moves against exhaust closing; + is sooner.', 'A longer section that makes the wave come sooner: the change altered an angle as well.', 'Sensitivity of the lead.')}</div>
<div class="pair">${place('history', 'How the search went', `Each dot a draft on the search’s coarser mesh, hollow where its wave lands outside the window, which the search marks down. The line: the best so far. The search ended because ${result.end}.`, 'Still rising at the end: allow it more drafts.', 'Mean torque of each computed draft and of the best so far.')}${place('power', 'Power', 'The same for the power.', 'As for the torque.', 'Sensitivity of the power.', 'noprint')}</div></section>${cautions}`,
    data,
    program: result.program,
    assets,
  });
}

const number = (value: number | null): string =>
  value === null ? '–' : fixed(value, Math.abs(value) < 100 ? 1 : 0).replace(/\.0$/, '');
