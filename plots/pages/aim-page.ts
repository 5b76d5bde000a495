/** The aim page: what to change from the least to the most, how safe the last pipe is, and how the search went. */

import { type AimAnswer, aimAnswer } from '../../src/findings/answers/aim.ts';
import { type BothWays, safetyOf } from '../../src/findings/answers/aim-safety.ts';
import type { OfferAnswer, OffersAnswer } from '../../src/findings/answers/aim-steps.ts';
import type { OutlineSection } from '../../src/findings/record.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import type { NamedBar } from '../figures/bars.ts';
import type { SweptDraft } from '../figures/draft-curves.ts';
import { namedOutlines } from '../figures/outline-drawing.ts';
import type { SearchedDraft } from '../figures/search-history.ts';
import { html } from '../theme/markup.ts';
import { fixed, newtonMetres, rpm, speed, THIN } from '../theme/numbers.ts';
import { firstText, offerName, offersTable, rulesText } from './aim-offers.ts';
import { safetyText } from './aim-words.ts';
import { leadText, verdicts } from './compare-words.ts';
import { dimensionTable } from './dimension-table.ts';
import { meshText } from './mesh-words.ts';
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
  /** Cells of what is offered and of the search [m]. */
  readonly cell: number;
  readonly searchCell: number;
  readonly score: { readonly name: string; readonly unit: string };
  readonly scoreBefore: number | null;
  readonly scoreAfter: number | null;
  readonly before: AimedPipe;
  /** Rounded to whole millimetres, as it is in the new file. */
  readonly after: AimedPipe;
  /** The handbook's pipe that the search began with; null: it began with the one before. */
  readonly start: AimedPipe | null;
  readonly given: OffersAnswer['given'];
  /** The offer to build first; null: none gains enough. */
  readonly first: string | null;
  /** From the least change to the most; the last is `after`. */
  readonly offers: readonly (OfferAnswer & { readonly file: string | null; readonly pipe: AimedPipe })[];
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
  /** What to mind before it is built. */
  readonly cautions: readonly string[];
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

const fromTo = (before: string, after: string): string => `${before} → ${after}`;

/** The largest changes, and whether it is the same pipe trimmed or another one. */
function changeText({ told, origin }: AimAnswer): string {
  if (told.length === 0) return 'Nothing.';
  const named = told.map(
    (one) => `${one.name} ${fromTo(number(one.before), number(one.after))}${THIN}${one.unit}`,
  );
  const header = origin?.header ?? null;
  const from =
    origin === null
      ? ''
      : ` Another pipe, not the given one trimmed: the search began from the handbook’s proportions${header === null ? '' : `, with a header of ${fixed(1000 * header, 0)}${THIN}mm`}.`;
  return `Most of all ${named.join(', ')}; all dimensions stand in the table below.${from}`;
}

/** The pipes as they are told of: before, what each step offers, and what the search began with. */
function pipesOf({ before, offers, after, start }: AimPageResult): readonly AimedPipe[] {
  const steps = offers.filter(({ isGiven, isRepeated }) => !isGiven && !isRepeated);
  return [
    { ...before, name: `before: ${before.name}` },
    ...(steps.length === 0
      ? [{ ...after, name: 'the new pipe' }]
      : steps.map((offer) => ({ ...offer.pipe, name: offerName(offer) }))),
    ...(start === null ? [] : [{ ...start, name: 'handbook’s, the search’s start' }]),
  ];
}

function headlineOf(
  { verdict, gain }: AimAnswer,
  { targetSpeed, halfBand }: AimPageResult,
  near: boolean,
): string {
  if (verdict === 'unknown') return `A pipe for ${rpm(targetSpeed)}.`;
  if (verdict === 'none') return `No better pipe than the first was found for ${rpm(targetSpeed)}.`;
  const about = `on average from ${speed(targetSpeed - halfBand)} to ${rpm(targetSpeed + halfBand)}`;
  return `The new pipe gains ${newtonMetres(gain)} ${about}${near ? ', but stands near an edge' : ''}.`;
}

export function aimPage(result: AimPageResult, assets: Assets): string {
  const { targetSpeed } = result;
  const answer = aimAnswer(result);
  const { before, after } = answer;
  const safe = safetyOf(result);
  const { how, advice } = safetyText(safe);
  const headline = headlineOf(answer, result, safe?.onEdge === true);
  const rules = rulesText(result);
  const lines: readonly Finding[] = [
    { label: 'Build first', text: firstText(result), way: true },
    { label: 'The most change', text: changeText(answer) },
    {
      label: `With it, at ${rpm(targetSpeed)}`,
      text: `Torque ${fromTo(newtonMetres(before.torque), newtonMetres(after.torque))}. The middle of the plug-back ${fromTo(leadText(before.middle), leadText(after.middle))} (exhaust closing): it ${fromTo(verdicts[before.landing], verdicts[after.landing])}.`,
    },
    { label: 'How safe', text: how },
    ...(advice === '' ? [] : [{ label: 'What to do', text: advice, way: true }]),
    ...(result.limits.length === 0
      ? []
      : [{ label: 'What limits', text: `${result.limits.join('; ')}: nothing beyond was tried.` }]),
    ...(rules === '' ? [] : [{ label: 'Beyond rules of thumb', text: rules }]),
    {
      label: 'The search',
      text: `${result.history.length} drafts on cells of ${number(1000 * result.searchCell)}${THIN}mm, the last of them begun from ${result.startedFrom === 'handbook' ? 'the handbook’s pipe' : 'the given pipe'}; it ended because ${result.end}. What is offered: ${meshText(result.cell)}`,
    },
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
    drafts: [...pipes.map(({ name, rows }, k) => ({ name: k === 0 ? 'before' : name, rows }))],
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
    body: html`<section class="answer"><div><h1>${headline}</h1>${findings(lines)}</div><div>${namedOutlines(outlines)}</div></section>${[doubtful, ...result.cautions].map((text) => text && html`<p class="warn">${text}</p>`)}
<section><h2>From the least change to the most</h2>${offersTable(result)}</section>
<section><h2>Dimensions</h2>${dimensionTable(outlines)}</section>
<section><h2>Before and after over engine speed</h2>${place('curves', 'Middle of the plug-back, torque and power', 'The upright dotted line is the target. The wave is wanted between EC, exhaust closing, and TC, transfer closing: above TC it works against the transfer streams, below EC it meets a closed port. A cross marks a speed whose cycles did not settle.', 'Better at the target and poor beside it: build the step before, or aim a step higher.', 'Middle of the plug-back before exhaust closing, torque and power before and after against engine speed.')}</section>
<section><h2>Why, and how near an edge</h2><div class="pair">${place('torque', 'Torque', `What a little less and a little more of each section does to the torque, at the target. ${twoBars}`, 'Both bars long and to the left: the pipe stands on a narrow peak.', 'Sensitivity of the torque.')}${place('lead', 'Middle of the plug-back', 'How far it moves against exhaust closing; + is sooner.', 'A longer section that makes the wave come sooner: the change altered an angle as well.', 'Sensitivity of the lead.')}</div>
<div class="pair">${place('history', 'How the search went', `Each dot a draft on the search’s coarser mesh, hollow where its wave lands outside the window, which the search marks down. The line: the best so far. The search ended because ${result.end}.`, 'Still rising at the end: allow it more drafts.', 'Mean torque of each computed draft and of the best so far.')}${place('power', 'Power', 'The same for the power.', 'As for the torque.', 'Sensitivity of the power.', 'noprint')}</div></section>${cautions}`,
    data,
    program: result.program,
    assets,
  });
}

const number = (value: number | null): string =>
  value === null ? '–' : fixed(value, Math.abs(value) < 100 ? 1 : 0).replace(/\.0$/, '');
