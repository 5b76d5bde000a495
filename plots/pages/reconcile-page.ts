/** The page of a reconciliation: prediction and measurement before and after, the inputs as ranges, and what to measure next. */

import type {
  MeasuredGroup,
  ReconcileAnswer,
  ReconciledInput,
} from '../../src/findings/answers/reconcile.ts';
import { html, type Markup } from '../theme/markup.ts';
import { fixed, isNumber } from '../theme/numbers.ts';
import { type Cell, findings, table } from './parts.ts';
import { movedText, reconcileHeadline, reconcileLines, shortPath } from './reconcile-words.ts';
import { type Assets, place, sheet } from './sheet.ts';

export interface ReconcilePageResult {
  readonly program: string;
  readonly name: string;
  readonly set: readonly string[];
  readonly files: readonly string[];
  readonly cell: number;
  readonly members: { readonly asked: number; readonly whole: number; readonly unsettled: number };
  readonly groups: readonly MeasuredGroup[];
  readonly answer: ReconcileAnswer;
}

export interface ReconcilePageData {
  readonly groups: readonly MeasuredGroup[];
}

/** Figures that a value has as a page shows it. */
const short = (value: number | null): string =>
  isNumber(value) ? String(Number(value.toPrecision(4))).replace('-', '−') : '–';

function inputTable(inputs: readonly ReconciledInput[]): Markup {
  const range = ({ p05, p95 }: ReconciledInput['before']): Cell => ({
    text: `${short(p05)} to ${short(p95)}`,
    number: true,
  });
  return table(
    'Inputs, in the order of how much the data tell of them. A range is from 5 to 95 % of the members',
    [
      { name: 'input' },
      { name: 'before', number: true },
      { name: 'after', number: true },
      { name: 'middle after', number: true },
      { name: 'unit' },
      { name: 'moved', unit: 'ranges', number: true },
      { name: 'range left', unit: '%', number: true },
    ],
    inputs
      .toSorted((a, b) => weight(b) - weight(a))
      .map((one) => ({
        cells: [
          { text: shortPath(one.path) },
          range(one.before),
          range(one.after),
          { text: short(one.middle), number: true },
          { text: one.unit },
          { text: movedText(one), number: true },
          { text: fixed(100 * one.narrowed, 0), number: true },
        ],
      })),
    'inputs',
    'tall',
  );
}

const weight = ({ moved, narrowed }: ReconciledInput): number => Math.abs(moved) + Math.max(0, 1 - narrowed);

const titled = (name: string): string => name.charAt(0).toUpperCase() + name.slice(1);

function figuresOf(groups: readonly MeasuredGroup[]): readonly Markup[] {
  return groups.map(({ kind, name }, k) => {
    const main = place(
      `group-${k}`,
      titled(name),
      'Dots are measured, with their error; the line is the middle of the reconciled members, the shades hold half and nine in ten of them, grey those before. Dashes are the case as it is.',
      'Dots that leave the shades everywhere alike point to a factor or a unit; here and there, to a fault of the measuring or to what the model lacks.',
      `${name}: measured and predicted, before and after.`,
    );
    if (kind !== 'torque') return main;
    return html`${main}${place(
      `rest-${k}`,
      'What is left',
      'Within two measuring errors either way is chance.',
      'A slope over speed, or a wave, is no chance: the model or the dynamometer errs there.',
      'Measured less predicted torque over speed, before and after.',
    )}`;
  });
}

export function reconcilePage(result: ReconcilePageResult, assets: Assets): string {
  const { answer, groups, members, set } = result;
  const lost = members.asked - members.whole;
  const doubts = [
    lost > 0 ? `${lost} of ${members.asked} members could not be computed and are left out.` : '',
    members.unsettled > members.whole / 4
      ? `${members.unsettled} of ${members.whole} members did not settle at some speed.`
      : '',
    ...groups.flatMap(({ name, scale }) =>
      scale > 1
        ? [
            `${name}: the model was taken to be off by ${fixed(scale, 1)} times what it usually is, so this tells less of the inputs.`,
          ]
        : [],
    ),
  ].filter((line) => line !== '');
  return sheet({
    title: `Reconciled: ${result.name}`,
    titleBlock: [
      ['Reconciled', result.name],
      ['Measured', result.files.join(' · ')],
      ['Members', `${members.whole}, on cells of ${fixed(1000 * result.cell, 0)} mm`],
      ['Program', result.program, 'minor'],
    ],
    body: html`<section class="answer"><div><h1>${reconcileHeadline(answer)}</h1>${findings(reconcileLines(answer))}</div></section>${doubts.map((text) => html`<p class="warn">${text}</p>`)}
<section><h2>Measured and predicted</h2>${figuresOf(groups)}</section>
<section><h2>Inputs</h2>${inputTable(answer.inputs)}${set.length > 0 && html`<p>In force for every run: ${set.join(', ')}.</p>`}</section>`,
    data: { groups } satisfies ReconcilePageData,
    program: result.program,
    assets,
  });
}
