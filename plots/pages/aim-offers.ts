/** The pipes that an aim offers, in words and as a table: from the least change to the most. */

import type { ChangedDimension, OfferAnswer, OffersAnswer } from '../../src/findings/answers/aim-steps.ts';
import type { WorkingBand } from '../../src/findings/working-band.ts';
import type { Markup } from '../theme/markup.ts';
import { fixed, millimetres, newtonMetres, percent, rpm, speed } from '../theme/numbers.ts';
import { type Cell, table } from './parts.ts';

export interface ShownOffers extends Pick<OffersAnswer, 'given' | 'first'> {
  readonly targetSpeed: number;
  readonly halfBand: number;
  readonly offers: readonly (OfferAnswer & { readonly file: string | null })[];
}

const NAMES: Readonly<Record<string, string>> = {
  header: 'header alone',
  'header and baffle': 'header and baffle',
  all: 'all lengths and bores',
  asked: 'what was asked for',
};

/** What a step may change. */
export const offerName = ({ id }: Pick<OfferAnswer, 'id'>): string => NAMES[id] ?? id;

/** Dimensions that are named one by one; more stand in the table. */
const NAMED = 3;

export function dimensionsText({ dimensions, isGiven }: OfferAnswer): string {
  if (isGiven) return 'nothing to change';
  if (dimensions === null) return 'another pipe';
  const size = ({ before, after }: ChangedDimension): number => Math.abs(after - before);
  const named = [...dimensions].sort((a, b) => size(b) - size(a)).slice(0, NAMED);
  const told = named.map(
    ({ name, before, after }) => `${name} ${millimetres(after)} (was ${fixed(1000 * before, 0)})`,
  );
  const more = dimensions.length - named.length;
  return `${told.join(', ')}${more === 0 ? '' : ` and ${more} more`}`;
}

const aboutText = ({ targetSpeed, halfBand }: ShownOffers): string =>
  `on average from ${speed(targetSpeed - halfBand)} to ${rpm(targetSpeed + halfBand)}`;

/** What to build first. */
export function firstText(shown: ShownOffers): string {
  const offer = shown.offers.find(({ id }) => id === shown.first);
  if (offer === undefined)
    return `Leave the pipe as it is: no change that was tried gains enough ${aboutText(shown)} to be worth the metal.`;
  const isMost = offer.gainShare !== null && offer.gainShare < 0.995;
  const share = isMost ? `, ${percent(offer.gainShare)} of the most that was found` : '';
  const build =
    offer.build === null
      ? ''
      : ` ${millimetres(offer.build.by)} more or less of header cost at most ${newtonMetres(offer.build.lost)}.`;
  const robust = offer.isRobust ? '' : ' It is not robust: see the least torque in the table.';
  return (
    `${capital(dimensionsText(offer))}: ${newtonMetres(offer.mean)} ${aboutText(shown)}, ` +
    `${newtonMetres(offer.gain)} more than now${share}. Works ${worksText(offer.band)}.${build}${robust}`
  );
}

/** Rules of thumb that the offered pipes do not keep to; empty: they keep to all. */
export function rulesText({ offers }: ShownOffers): string {
  const broken = offers.filter(({ rules, isRepeated }) => rules.length > 0 && !isRepeated);
  return broken.map((offer) => `${capital(offerName(offer))}: ${offer.rules.join('; ')}.`).join(' ');
}

/** Where the wave lands and torque is held. */
export function worksText({ works, openBelow, openAbove }: WorkingBand): string {
  if (works === null) return 'nowhere: its wave does not land';
  const below = openBelow ? ' or below' : '';
  return `from ${about(works.from)}${below} to ${about(works.to)}${openAbove ? ' or above' : ''} rpm`;
}

/** Edges between computed speeds are no surer than this [rpm]. */
const EDGE = 50;
const about = (value: number): string => speed(EDGE * Math.round(value / EDGE));

export function spanText({ works, openBelow, openAbove }: WorkingBand): string {
  if (works === null) return '–';
  return `${openBelow ? '≤ ' : ''}${about(works.from)}–${openAbove ? '≥ ' : ''}${about(works.to)}`;
}

export function offersTable(shown: ShownOffers): Markup {
  const number = (text: string): Cell => ({ text, number: true });
  const cellsOf = (one: OffersAnswer['given']): Cell[] => [
    number(fixed(one.torque, 1)),
    number(fixed(one.mean, 1)),
    number(one.least === null ? '–' : `${fixed(one.least.torque, 1)} at ${speed(one.least.speedRpm)}`),
    number(spanText(one.band)),
  ];
  const by = shown.offers[0]?.build?.by ?? null;
  return table(
    'What to change, from the least to the most, and what it gives',
    [
      { name: 'change' },
      { name: 'torque', unit: `Nm at ${rpm(shown.targetSpeed)}`, number: true },
      { name: 'mean', unit: `Nm, ± ${rpm(shown.halfBand)}`, number: true },
      { name: 'least', unit: 'Nm of those', number: true },
      { name: 'works', unit: 'rpm', number: true },
      { name: `header ${millimetres(by)} off`, unit: 'Nm lost at most', number: true },
      { name: 'rules of thumb' },
      { name: 'pipe file' },
    ],
    [
      { cells: [{ text: 'as given' }, ...cellsOf(shown.given), number('–'), { text: '' }, { text: '' }] },
      ...shown.offers.map((offer) => ({
        cells: [
          { text: `${offerName(offer)}${offer.isRepeated ? ': nothing better' : ''}` },
          ...cellsOf(offer),
          number(fixed(offer.build?.lost, 1)),
          offer.rules.length === 0
            ? { text: '✓ kept', kind: 'good' }
            : { text: `✗ ${offer.rules.length} not`, kind: 'bad' },
          { text: offer.file ?? '–' },
        ],
      })),
    ],
  );
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
