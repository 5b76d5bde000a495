/** What an aim came to, for the terminal: what to build first, the steps side by side, and how safe the last one is. */

import {
  dimensionsText,
  firstText,
  offerName,
  rulesText,
  type ShownOffers,
  spanText,
} from '../../../plots/pages/aim-offers.ts';
import { safetyText } from '../../../plots/pages/aim-words.ts';
import { unsettledText } from '../../../plots/pages/unsettled.ts';
import { type SafetyQuestion, safetyOf } from '../../findings/answers/aim-safety.ts';
import type { OfferAnswer, OffersAnswer } from '../../findings/answers/aim-steps.ts';
import { changeLines } from '../../study/aim/report.ts';
import type { AimResult } from '../../study/aim/result.ts';
import { folded } from '../frame/folded.ts';
import { plainText } from '../frame/plain-text.ts';
import { type Column, tableText } from '../frame/table.ts';
import { terminalWords } from './page-words.ts';

/** What is told of an aim. */
export interface AimTold extends ShownOffers, SafetyQuestion {
  readonly caseName: string;
  readonly limits: readonly string[];
  readonly cautions: readonly string[];
}

export function aimText(told: AimTold, result: AimResult, colour: boolean): string {
  const { targetSpeed, limits } = told;
  const { startedFrom, end } = result;
  const from = startedFrom === 'handbook' ? "handbook's pipe" : 'draft';
  const reached = limits.length === 0 ? 'No limit is reached.' : `Limits: ${limits.join('; ')}.`;
  const rules = rulesText(told);
  return [
    `${plainText(told.caseName)}, aimed at ${targetSpeed} rpm.\n`,
    `${said(`Build first: ${firstText(told)}`)}\n\n`,
    tableText(offerColumns(told), offerLines(told), { colour, marked: ({ isFirst }) => isFirst }),
    ...told.offers.map((offer) => `${said(`${offerName(offer)}: ${offerText(offer)}`)}\n`),
    ...(rules === '' ? [] : [`${said(`Beyond rules of thumb: ${rules}`)}\n`]),
    `\nThe most change, started from the ${from}:\n`,
    tableText(changeColumns, changeLines(result), { colour }),
    '\n',
    tableText(whyColumns, result.sensitivities, { colour }),
    `${said('At the target. Leads: degrees before exhaust closing; their changes are of the middle.')}\n\n`,
    ...safetyLines(told, result).map((line) => `${said(line)}\n`),
    `${said(`${reached} The search ended: ${end}.`)}\n`,
  ].join('');
}

/** Speeds without the gap between thousands, at which a line might break. */
const said = (text: string): string => folded(terminalWords(text));

const offerText = (offer: OfferAnswer): string =>
  offer.isRepeated ? 'nothing better than the step before.' : `${dimensionsText(offer)}.`;

interface OfferLine {
  readonly name: string;
  readonly isFirst: boolean;
  readonly of: OffersAnswer['given'];
  /** What a header a little off costs at most [Nm]; null: as given, or not computed. */
  readonly lost: number | null;
}

function offerLines({ given, offers, first }: ShownOffers): readonly OfferLine[] {
  return [
    { name: 'as given', isFirst: false, of: given, lost: null },
    ...offers.map((offer) => ({
      name: offerName(offer),
      isFirst: offer.id === first,
      of: offer,
      lost: offer.build?.lost ?? null,
    })),
  ];
}

function offerColumns({ targetSpeed, halfBand, offers }: ShownOffers): readonly Column<OfferLine>[] {
  const by = Number((1000 * (offers[0]?.build?.by ?? 0)).toFixed(1));
  return [
    { header: 'Change', align: 'left', text: ({ name }) => name },
    { header: `${targetSpeed}`, unit: 'Nm', text: ({ of }) => number(of.torque, 1) },
    { header: `+-${halfBand}`, unit: 'Nm', text: ({ of }) => number(of.mean, 1) },
    { header: 'least', unit: 'Nm', text: ({ of }) => number(of.least?.torque, 1) },
    { header: 'works', unit: 'rpm', text: ({ of }) => terminalSpan(spanText(of.band)) },
    { header: `${by} mm off`, unit: 'Nm lost', text: ({ lost }) => number(lost, 1) },
    { header: 'middle', unit: 'deg', text: ({ of }) => number(of.middle, 1) },
  ];
}

const terminalSpan = (text: string): string =>
  terminalWords(text).replaceAll('–', '-').replaceAll('≤ ', '<').replaceAll('≥ ', '>');

const number = (value: number | null | undefined, digits: number): string => value?.toFixed(digits) ?? '-';
const signed = (value: number, digits: number): string => {
  const text = value.toFixed(digits);
  if (Number(text) === 0) return (0).toFixed(digits);
  return value > 0 ? `+${text}` : text;
};

const changeColumns: readonly Column<ReturnType<typeof changeLines>[number]>[] = [
  { header: 'What', align: 'left', text: (one) => one.name },
  { header: 'start', unit: 'mm', text: (one) => one.start.toFixed(0) },
  { header: 'aimed', unit: 'mm', text: (one) => one.after.toFixed(0) },
  { header: 'change', unit: 'mm', text: (one) => signed(one.change, 0) },
  { header: 'rests on', align: 'left', text: (one) => one.limit },
];

const whyColumns: readonly Column<AimResult['sensitivities'][number]>[] = [
  { header: 'Why', align: 'left', text: (one) => one.name },
  { header: 'by', text: (one) => one.step },
  { header: 'lead less', unit: 'deg', text: (one) => signed(one.leadLessDeg, 1) },
  { header: 'more', unit: 'deg', text: (one) => signed(one.leadMoreDeg, 1) },
  { header: 'torque less', unit: 'Nm', text: (one) => signed(one.torqueLessNm, 2) },
  { header: 'more', unit: 'Nm', text: (one) => signed(one.torqueMoreNm, 2) },
];

/** How near an edge the pipe stands, what to do about it, and which speeds did not settle, in the page's words. */
function safetyLines(told: AimTold, { given, steps }: AimResult): readonly string[] {
  const { how, advice } = safetyText(safetyOf(told));
  const pipes = [
    { name: 'as given', rows: given.rows },
    ...steps.map((step, k) => ({ name: offerName(told.offers[k] ?? step), rows: step.rows })),
  ];
  return [`How safe: ${how}`, advice, ...told.cautions, unsettledText(pipes)].filter((line) => line !== '');
}
