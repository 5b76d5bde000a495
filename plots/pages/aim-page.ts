/** The aim page: the pipe before and after, what was changed and why, and how the search went. */

import type { NamedBar } from '../figures/bars.ts';
import type { SweptDraft } from '../figures/draft-curves.ts';
import { landing } from '../figures/landing.ts';
import { outlineDrawing, sectionList } from '../figures/outline-drawing.ts';
import { nearest, type SpeedRow } from '../figures/sweep-row.ts';
import { html } from '../theme/escape.ts';
import { fixed, newtonMetres, rpm, thin } from '../theme/numbers.ts';
import { leadText, valueAt, verdicts } from './compare-answer.ts';
import { stretchMm } from './pack-sweep.ts';
import { findings, table } from './parts.ts';
import { type Assets, place, sheet } from './sheet.ts';
import type { PipeStretch } from './sweep-data.ts';
import { cautions } from './sweep-sections.ts';

export interface AimedPipe {
  readonly name: string;
  readonly outline: readonly PipeStretch[];
  readonly rows: readonly SpeedRow[];
}

export interface AimPageResult {
  readonly program: string;
  readonly caseName: string;
  readonly targetSpeed: number;
  readonly score: { readonly name: string; readonly unit: string; readonly higherIsBetter: boolean };
  readonly scoreBefore: number | null;
  readonly scoreAfter: number | null;
  readonly before: AimedPipe;
  /** Rounded to whole millimetres, as it is in the new file. */
  readonly after: AimedPipe;
  readonly newFile: string;
  readonly changes: readonly {
    readonly name: string;
    readonly unit: string;
    readonly before: number;
    readonly after: number;
    /** The limit it came to rest on, if it did. */
    readonly limit?: string;
  }[];
  readonly sensitivities: readonly {
    readonly name: string;
    /** `+10 mm`, `+50 K`. */
    readonly change: string;
    readonly leadDeg: number;
    readonly torqueNm: number;
    readonly powerKw: number;
  }[];
  readonly history: readonly { readonly evaluation: number; readonly score: number | null }[];
  /** Active constraints, or why nothing better was found. */
  readonly limits: readonly string[];
  readonly date?: string;
}

export interface AimPageData {
  readonly drafts: readonly SweptDraft[];
  readonly targetSpeed: number;
  readonly lead: readonly NamedBar[];
  readonly torque: readonly NamedBar[];
  readonly power: readonly NamedBar[];
  readonly history: readonly { readonly evaluation: number; readonly score: number | null }[];
  readonly scoreName: string;
  readonly higherIsBetter: boolean;
}

interface AtTarget {
  readonly torque: number | null;
  readonly lead: number | null;
  readonly lands: string;
}

function at({ rows }: AimedPipe, targetSpeed: number): AtTarget {
  const row = nearest(rows, targetSpeed);
  return {
    torque: valueAt(rows, 'torque_nm', targetSpeed),
    lead: valueAt(rows, 'plugback_lead_deg', targetSpeed),
    lands: verdicts[row === undefined ? 'none' : landing(row)],
  };
}

/**
 * Each section that is not as it was: its length, and the diameters where they differ [mm]. Sections are matched in
 * order; if their number differs the new pipe is told whole.
 */
export function pipeChanges(before: readonly PipeStretch[], after: readonly PipeStretch[]): string[] {
  const parts = (outline: readonly PipeStretch[]) =>
    outline.map(stretchMm).filter(({ role }) => role !== 'passage');
  const old = parts(before);
  const alike = old.length === parts(after).length;
  return parts(after).flatMap((part, i) => {
    const was = alike ? old[i] : undefined;
    const length = part.end - part.start;
    const lengthWas = was ? was.end - was.start : null;
    const wide = part.diameters.map(number).join('–');
    const wideWas = was ? was.diameters.map(number).join('–') : null;
    const told = [
      ...(lengthWas !== null && number(lengthWas) === number(length)
        ? []
        : [`${lengthWas === null ? '' : `${number(lengthWas)} → `}${number(length)}${thin}mm long`]),
      ...(wideWas === wide ? [] : [`⌀ ${wideWas === null ? '' : `${wideWas} → `}${wide}${thin}mm`]),
    ];
    return told.length === 0 ? [] : [`${part.name} ${told.join(', ')}`];
  });
}

export function aimPage(result: AimPageResult, assets: Assets): string {
  const { targetSpeed } = result;
  const before = at(result.before, targetSpeed);
  const after = at(result.after, targetSpeed);
  const gained = before.torque !== null && after.torque !== null ? after.torque - before.torque : null;
  const headline =
    gained === null
      ? `A pipe for ${rpm(targetSpeed)}.`
      : gained > 0.05
        ? `The new pipe gains ${newtonMetres(gained)} at ${rpm(targetSpeed)}.`
        : `No better pipe than the first was found at ${rpm(targetSpeed)}.`;
  const moved = pipeChanges(result.before.outline, result.after.outline);
  const lines = [
    {
      label: 'What to change',
      text: moved.length === 0 ? 'Nothing.' : `${moved.join('; ')}.`,
      way: true,
    },
    {
      label: `At ${rpm(targetSpeed)}`,
      text: `Torque ${newtonMetres(before.torque)} → ${newtonMetres(after.torque)}; the plug-back peaks ${leadText(before.lead)} → ${leadText(after.lead)} (exhaust closing); the wave ${before.lands} → ${after.lands}.`,
    },
    {
      label: 'What limits',
      text: result.limits.length === 0 ? 'No constraint is active.' : `${result.limits.join('; ')}.`,
    },
    { label: 'New pipe file', text: result.newFile },
  ];
  const outlines = [result.before, result.after].map((pipe) => ({
    name: pipe.name,
    outline: pipe.outline.map(stretchMm),
  }));
  const scoreName = `${result.score.name}${result.score.unit === '' ? '' : ` [${result.score.unit}]`}`;
  const bars = (of: 'leadDeg' | 'torqueNm' | 'powerKw'): NamedBar[] =>
    result.sensitivities.map((one) => ({ name: `${one.name} ${one.change}`, value: one[of] }));
  const data: AimPageData = {
    drafts: [
      { name: 'before', rows: result.before.rows },
      { name: 'after', rows: result.after.rows },
    ],
    targetSpeed,
    lead: bars('leadDeg'),
    torque: bars('torqueNm'),
    power: bars('powerKw'),
    history: result.history,
    scoreName,
    higherIsBetter: result.score.higherIsBetter,
  };
  const atLimit = result.changes.some(({ limit }) => limit !== undefined);
  const changes = table(
    'What the search was allowed to move',
    [
      { name: 'quantity' },
      { name: 'before', number: true },
      { name: 'after', number: true },
      { name: 'change', number: true },
      { name: 'unit' },
      ...(atLimit ? [{ name: 'rests on' }] : []),
    ],
    result.changes.map((change) => ({
      cells: [
        { text: change.name },
        { text: number(change.before), number: true },
        { text: number(change.after), number: true },
        {
          text: `${change.after > change.before ? '+' : ''}${number(change.after - change.before)}`,
          number: true,
        },
        { text: change.unit },
        ...(atLimit ? [{ text: change.limit ?? '' }] : []),
      ],
    })),
  );
  return sheet({
    title: `${result.caseName} – aimed at ${targetSpeed} rpm`,
    titleBlock: [
      ['Case', result.caseName],
      ['Target', rpm(targetSpeed)],
      ['Score', `${scoreName}: ${number(result.scoreBefore)} → ${number(result.scoreAfter)}`],
      ['Drafts computed', String(result.history.length)],
      ['Program', result.program, 'minor'],
      ...(result.date === undefined ? [] : [['Computed', result.date, 'minor'] as const]),
    ],
    body: `<section class="answer"><div><h1>${html(headline)}</h1>${findings(lines)}</div><div>${outlineDrawing(outlines, 'Outlines before and after, to one scale')}<div class="draft-keys">${outlines
      .map(
        (pipe, index) =>
          `<details class="draft-key key-${index}"${index === 1 ? ' open' : ''}><summary>${index === 0 ? 'before' : 'after'}: ${html(pipe.name)}</summary>${sectionList(pipe.outline)}</details>`,
      )
      .join('')}</div></div></section>
<section><h2>What was changed</h2>${changes}</section>
<section><h2>Before and after over engine speed</h2>${place('curves', 'Lead, torque and power', 'The upright dotted line is the target. Lead is exhaust closing less the peak of the plug-back: above the line EC the peak is in time.', 'Better at the target and poor beside it: ask for an average over a band instead.', 'Lead, torque and power before and after against engine speed.')}</section>
<section><h2>Why</h2><div class="pair">${place('lead', 'Lead', 'How far each change moves the middle of the plug-back against exhaust closing, at the target; above 0 it comes sooner.', 'A longer section that makes the wave come sooner: the change altered an angle as well.', 'Sensitivity of the lead.')}${place('torque', 'Torque', 'How far each change moves the torque, at the target. Near the best all are small.', 'A long bar at the end: a constraint holds that quantity back.', 'Sensitivity of the torque.')}</div>
<div class="pair">${place('power', 'Power', 'How far each change moves the power, at the target.', 'As for the torque.', 'Sensitivity of the power.')}${place('history', 'How the search went', 'Each dot a computed draft, the line the best so far. Flat at the end: it has settled.', 'Still rising at the end: give it more drafts.', 'Score of each computed draft and the best so far.')}</div></section>${cautions}`,
    data,
    program: result.program,
    assets,
  });
}

const number = (value: number | null): string =>
  value === null ? '–' : fixed(value, Math.abs(value) < 100 ? 1 : 0).replace(/\.0$/, '');
