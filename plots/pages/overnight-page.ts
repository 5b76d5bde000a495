/** The overnight page: hundreds of drafts ranked, what their score depends on, and the best of them. */

import { type OvernightAnswer, overnightAnswer } from '../../src/findings/answers/overnight.ts';
import type { OutlineSection } from '../../src/findings/record.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import type { SweptDraft } from '../figures/draft-curves.ts';
import { namedOutlines } from '../figures/outline-drawing.ts';
import type { ScoredDraft, VariedQuantity } from '../figures/score-against.ts';
import { html, type Markup } from '../theme/markup.ts';
import { fixed, THIN } from '../theme/numbers.ts';
import { dimensionTable } from './dimension-table.ts';
import { meshText } from './mesh-words.ts';
import { decimalsFor, importanceText } from './overnight-words.ts';
import { type Cell, type Finding, findings, type Heading, table } from './parts.ts';
import { type Assets, place, sheet } from './sheet.ts';
import { stretchMm } from './stretch-mm.ts';

export interface OvernightDraft {
  readonly name: string;
  /** Null: it failed. */
  readonly score: number | null;
  /** One value a varied quantity, in its unit. */
  readonly values: readonly number[];
  /** One answer a constraint: met or not. */
  readonly met: readonly boolean[];
  /** Further readings to show, one a named reading. */
  readonly readings: readonly (number | null)[];
  readonly failure?: string;
}

export interface OvernightPageResult {
  readonly program: string;
  readonly study: string;
  readonly caseName: string;
  readonly score: { readonly name: string; readonly unit: string; readonly higherIsBetter: boolean };
  readonly varied: readonly VariedQuantity[];
  readonly constraints: readonly string[];
  readonly readings: readonly { readonly name: string; readonly unit: string; readonly decimals: number }[];
  /** In the order of their rank, failed ones last. */
  readonly drafts: readonly OvernightDraft[];
  /** Drafts the study holds; more than `drafts` while it is not finished. */
  readonly total: number;
  /** Some drafts have not been run. */
  readonly unfinished?: boolean;
  /** Cells of all drafts [m]. */
  readonly cell: number;
  /** The best few with their pipes and rows; the first is the winner. */
  readonly best: readonly {
    readonly name: string;
    readonly outline: readonly OutlineSection[];
    readonly rows: readonly SweepRow[];
  }[];
  /** Share of the score's variation each varied quantity accounts for, 0 to 1; empty: too few drafts to tell. */
  readonly importance: readonly { readonly name: string; readonly share: number }[];
  readonly notes: readonly string[];
}

export interface OvernightPageData {
  readonly drafts: readonly ScoredDraft[];
  readonly varied: readonly VariedQuantity[];
  readonly scoreName: string;
  readonly scoreUnit: string;
  readonly best: readonly SweptDraft[];
  readonly importance: readonly { readonly name: string; readonly share: number }[];
}

/** Drafts the table lists; the rest stand in the ranking's file. */
const LISTED = 400;

/** Drafts drawn as points and lines; beyond it every so manieth of those that are not among the best. */
const DRAWN = 2000;

/** Drafts that bear a bare number are called by it. */
const draftName = (name: string): string => (/^\d+$/.test(name) ? `draft ${name}` : name);

function ranking(result: OvernightPageResult): Markup {
  const scoreDecimals = decimalsFor(result.drafts.map(({ score }) => score));
  const decimals = result.varied.map((_, i) =>
    decimalsFor(result.drafts.map(({ values }) => values[i] ?? null)),
  );
  const headings: Heading[] = [
    { name: 'rank', number: true },
    { name: 'draft' },
    { name: result.score.name, unit: result.score.unit, number: true },
    ...result.varied.map(({ name, unit }) => ({ name, unit, number: true })),
    ...result.readings.map(({ name, unit }) => ({ name, unit, number: true })),
    ...(result.constraints.length > 0 ? [{ name: 'constraints' }] : []),
  ];
  const rows = result.drafts.slice(0, LISTED).map((draft, index) => {
    const missed = result.constraints.filter((_, i) => draft.met[i] === false);
    const cells: Cell[] = [
      { text: String(index + 1), number: true, sort: index + 1 },
      { text: draft.name, sort: draft.name },
      {
        text:
          draft.score === null
            ? `failed: ${draft.failure ?? 'no reason kept'}`
            : fixed(draft.score, scoreDecimals),
        number: draft.score !== null,
        sort: draft.score,
      },
      ...draft.values.map((value, i) => ({
        text: fixed(value, decimals[i] ?? 0),
        number: true,
        sort: value,
      })),
      ...result.readings.map((reading, i) => ({
        text: fixed(draft.readings[i], reading.decimals),
        number: true,
        sort: draft.readings[i] ?? null,
      })),
    ];
    if (result.constraints.length > 0)
      cells.push(
        missed.length === 0
          ? { text: '✓ all met', kind: 'good', sort: 0 }
          : { text: `✗ ${missed.join(', ')}`, kind: 'bad', sort: missed.length },
      );
    return { cells, met: result.constraints.map((_, i) => (draft.met[i] === false ? '0' : '1')).join('') };
  });
  const filter =
    result.constraints.length > 0 &&
    html`<p class="noprint"><label for="filter">Show</label> <select id="filter"><option value="">all drafts</option><option value="all">those that meet every constraint</option>${result.constraints.map((name, i) => html`<option value="${i}">those that meet: ${name}</option>`)}</select></p>`;
  const rest =
    result.drafts.length > LISTED &&
    html`<p class="small">The best ${LISTED} of ${result.drafts.length}; the rest stand in ranking.csv.</p>`;
  return html`${filter}${table('Drafts in the order of their rank; press a heading to sort', headings, rows, 'ranking', 'tall')}${rest}`;
}

/** The winner's values as they are read, one a varied quantity. */
function winningValues({ varied, drafts }: OvernightPageResult, winner: OvernightDraft | null): string[] {
  return varied.map(({ name, unit }, i) => {
    const decimals = decimalsFor(drafts.map(({ values }) => values[i] ?? null));
    return `${name} ${fixed(winner?.values[i], decimals)}${unit === '' ? '' : `${THIN}${unit}`}`;
  });
}

const ends = { least: 'is the least tried', most: 'is the most tried' } as const;

/** Quantities that matter and whose best value lies at an end of what was tried. */
function endsText(result: OvernightPageResult, answer: OvernightAnswer<OvernightDraft>): string[] {
  const values = winningValues({ ...result, drafts: answer.scored }, answer.winner);
  return answer.ends.map(({ quantity, end }) => `${values[quantity] ?? ''} ${ends[end]}`);
}

function answerLines(result: OvernightPageResult, answer: OvernightAnswer<OvernightDraft>): Finding[] {
  const { constraints, drafts, total, cell } = result;
  const { winner, failed, importance } = answer;
  const missed = constraints.filter((_, i) => winner?.met[i] === false);
  const beyond = endsText(result, answer);
  const line = (label: string, text: string, way = false): Finding => ({ label, text, way });
  return [
    line('Its values', winningValues(result, winner).join(', ')),
    ...(beyond.length === 0
      ? []
      : [
          line(
            'Look beyond',
            `The best lies at an end of what was tried: ${beyond.join(', ')}. Widen the range there: a better one may lie beyond.`,
            true,
          ),
        ]),
    ...(constraints.length === 0
      ? []
      : [
          line(
            'Constraints',
            missed.length === 0 ? 'All met by the best.' : `The best misses ${missed.join(', ')}.`,
          ),
        ]),
    ...(importance === null ? [] : [line('Score depends on', importanceText(importance))]),
    line(
      'Done',
      `${drafts.length} of ${total} drafts${failed === 0 ? '' : `, ${failed} of them failed`}. ${meshText(cell)}`,
    ),
  ];
}

const withUnit = ({ name, unit }: { readonly name: string; readonly unit: string }): string =>
  `${name}${unit === '' ? '' : ` [${unit}]`}`;

function dataOf(result: OvernightPageResult): OvernightPageData {
  const stride = Math.max(1, Math.ceil(result.drafts.length / DRAWN));
  return {
    drafts: result.drafts
      .filter((_, i) => i < 50 || i % stride === 0)
      .map(({ name, score, values }) => ({ name, score, values })),
    varied: result.varied,
    scoreName: withUnit(result.score),
    scoreUnit: result.score.unit,
    best: result.best.map(({ name, rows }) => ({ name, rows })),
    importance: result.importance,
  };
}

export function overnightPage(result: OvernightPageResult, assets: Assets): string {
  const studied = result.varied.map(({ name, ranged }) => ({ name, ranged: ranged !== false }));
  const answer = overnightAnswer(result.drafts, studied, result.importance, result.unfinished);
  const { winner } = answer;
  const scoreDecimals = decimalsFor(result.drafts.map(({ score }) => score));
  const headline = winner
    ? `${result.unfinished === true ? `Unfinished, ${result.drafts.length} of about ${result.total}: best so far` : `Best of ${result.drafts.length}:`} ${draftName(winner.name)}, with ${fixed(winner.score, scoreDecimals)}${result.score.unit === '' ? '' : `${THIN}${result.score.unit}`}.`
    : 'No draft has finished yet.';
  const isCaution = (note: string): boolean => note.startsWith('Caution');
  const [cautions, notes] = [result.notes.filter(isCaution), result.notes.filter((note) => !isCaution(note))];
  const best = result.best.map((one) => ({ name: one.name, outline: one.outline.map(stretchMm) }));
  const scatter = result.varied.map(({ name }, i) =>
    place(
      `score-${i}`,
      `Score against ${name}`,
      'Each dot a draft, the best in the colours of their outlines.',
      'No shape at all: the score does not hang on it, or two quantities work against each other.',
      `Score against ${name}.`,
    ),
  );
  return sheet({
    title: `${result.study} – overnight`,
    titleBlock: [
      ['Study', result.study],
      ['Case', result.caseName],
      ['Score', withUnit(result.score)],
      ['Drafts', `${result.drafts.length} of ${result.total}`],
      ['Program', result.program, 'minor'],
    ],
    body: html`<section class="answer"><div><h1>${headline}</h1>${findings(answerLines(result, answer))}</div><div>${best.length > 0 && namedOutlines(best)}</div></section>
${cautions.map((note) => html`<p class="warn">${note}</p>`)}${notes.length > 0 && html`<ul class="small">${notes.map((note) => html`<li>${note}</li>`)}</ul>`}
<section><h2>Ranking</h2>${ranking(result)}</section>
${best.length > 0 && html`<section><h2>Dimensions of the best</h2>${dimensionTable(best)}</section>`}
<section><h2>What the score depends on</h2>${result.importance.length === 0 ? html`<p>Too few drafts to tell.</p>` : place('importance', 'Share of the score’s variation', 'The longest bar is the quantity to settle first.', 'All bars short: the quantities act together; look at the parallel axes.', 'Importance of each varied quantity.')}
<div class="pair">${scatter}</div>
${place('parallel', 'All drafts at once', 'Each line is a draft, from its varied quantities on the left to its score on the right; the best are coloured. Where they pass through one spot, that value matters.', answer.ends.length === 0 ? 'Lines that cross everywhere: no single quantity decides.' : 'The best lies at the end of an axis: see “Look beyond” above.', 'Parallel axes of the varied quantities and the score.')}</section>
${result.best.length > 0 && html`<section><h2>The best over engine speed</h2>${place('curves', 'Middle of the plug-back, torque and power', 'The wave is wanted between EC, exhaust closing, and TC, transfer closing. A cross marks a speed whose cycles did not settle.', 'The best differ by less than the mesh error: take the one easiest to make.', 'Middle of the plug-back before exhaust closing, torque and power of the best drafts against engine speed.')}</section>`}`,
    data: dataOf(result),
    program: result.program,
    assets,
  });
}
