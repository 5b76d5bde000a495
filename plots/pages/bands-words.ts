/** How sure a sweep is, in words, for the page and the terminal. ± holds nine in ten of the members. */

import type { BandsAnswer } from '../../src/findings/answers/bands.ts';
import type { SweepAnswer } from '../../src/findings/answers/sweep.ts';
import type { FigureBand, FigureName, MemberTroubles } from '../../src/findings/member-bands.ts';
import { halfWidth, type Percentiles } from '../../src/findings/percentile.ts';
import { type InputShare, narrower, worthMeasuring } from '../../src/findings/width-drivers.ts';
import { fixed, percent, rpm, speed, THIN } from '../theme/numbers.ts';
import { bandEdges } from './band-words.ts';
import { inputName } from './input-name.ts';

/** Speeds are told to this [rpm]. */
const STEP = 10;

const figure = ({ bands }: BandsAnswer, name: FigureName): FigureBand | undefined =>
  bands.figures.find((one) => one.name === name);

const toStep = (value: number): number => STEP * Math.round(value / STEP);

/** `9 750 ± 180`. */
const speedsWithin = (band: Percentiles): string =>
  `${speed(toStep(band.p50 ?? 0))} ± ${speed(Math.max(STEP, toStep(halfWidth(band) ?? 0)))}`;

const within = (band: Percentiles | undefined, unit: string): string =>
  band === undefined || band.p50 === null
    ? '–'
    : `${fixed(band.p50, 1)} ± ${fixed(Math.max(0.1, halfWidth(band) ?? 0), 1)}${THIN}${unit}`;

/** Where the pipe works, with its edges as sure as they are; null: in less than half of the members is there such a band. */
export function sureHeadline(answer: BandsAnswer): string | null {
  const enough = ({ count }: Percentiles): boolean => 2 * count >= answer.bands.members;
  const [from, to] = [figure(answer, 'works_from_rpm'), figure(answer, 'works_to_rpm')];
  if (from === undefined || to === undefined || !enough(from)) return null;
  return `The wave comes back when the port wants it from ${speedsWithin(from)} to ${speedsWithin(to)}${THIN}rpm, with at least 90${THIN}% of the best torque.`;
}

/** What the ± is, how it lies to the answer of the sweep, and torque and power with theirs. */
export function sureText(answer: BandsAnswer, swept: SweepAnswer): string {
  const { bands, cell, inputs, chances } = answer;
  const { works, openBelow, openAbove } = swept.band;
  const asAssumed =
    works === null
      ? ''
      : ` With every input as the case has it, on the sweep’s own cells, it works ${bandEdges({ ...works, openBelow, openAbove })}.`;
  const torque = within(figure(answer, 'best_torque_nm'), 'Nm');
  const power = within(figure(answer, 'best_power_kw'), 'kW');
  const there = chances.lands_at_target;
  const lands =
    there === null
      ? ''
      : ` At the target of ${rpm(there.speed_rpm)} the wave lands in ${there.in} of ${there.of}.`;
  return `± holds nine in ten of ${bands.members} members: the same engine with other values of the ${inputs.length} inputs that are not known exactly, on cells of ${fixed(1000 * cell, 0)}${THIN}mm.${asAssumed} Best torque ${torque}, best power ${power}.${lands}${openText(answer)}`;
}

/** That the band of some members ends where the computed speeds do. */
function openText(answer: BandsAnswer): string {
  const open = (name: FigureName): number => figure(answer, name)?.open ?? 0;
  const parts = [
    open('works_from_rpm') > 0 ? `below in ${open('works_from_rpm')}` : '',
    open('works_to_rpm') > 0 ? `above in ${open('works_to_rpm')}` : '',
  ].filter((part) => part !== '');
  return parts.length === 0
    ? ''
    : ` The computed speeds end before the band does ${parts.join(' and ')} of the members, so it is wider there than told.`;
}

/** What of the members could not be used; empty: all could. */
export function troublesText({ lost, incomplete, failedSpeeds, unsettledSpeeds }: MemberTroubles): string {
  if (incomplete === 0) return '';
  const parts = [
    lost > 0 ? `${count(lost, 'member')} could not be used at all` : '',
    failedSpeeds > 0 ? `${count(failedSpeeds, 'speed')} failed` : '',
    unsettledSpeeds > 0 ? `${count(unsettledSpeeds, 'speed')} did not settle` : '',
  ].filter((part) => part !== '');
  return `${count(incomplete, 'member')} lack${incomplete === 1 ? 's' : ''} speeds: ${parts.join(', ')}. These are left out of the percentiles, which stand on fewer members there.`;
}

const count = (many: number, what: string): string => `${many} ${what}${many === 1 ? '' : 's'}`;

const shareText = ({ share, error }: InputShare): string =>
  `${percent(share)} ± ${fixed(100 * error, 0)}${THIN}% of its variance`;

/** What to measure first, in three sentences at most. */
export function measureText({ bands, drivers }: BandsAnswer): string {
  const { edges, likely, torque, together } = worthMeasuring(drivers);
  const sentences: string[] = [];
  if (edges !== null) {
    const parts = [
      edges.lower > 0 ? `of the lower edge would be ${percent(edges.lower)} narrower` : '',
      edges.upper > 0 ? `of the upper edge ${percent(edges.upper)}${edges.lower > 0 ? '' : ' narrower'}` : '',
    ].filter((part) => part !== '');
    sentences.push(`Measure first: ${inputName(edges.path)}; known exactly, the ± ${parts.join(', that ')}.`);
  }
  const speedRpm = drivers.find(({ answer }) => answer === 'torque_nm')?.speed_rpm ?? null;
  if (torque !== null)
    sentences.push(
      `Torque${speedRpm === null ? '' : ` at ${rpm(speedRpm)}`} hangs most on ${inputName(torque.path)}, ${shareText(torque)}: known exactly, its band would be ${percent(narrower(torque.share))} narrower.`,
    );
  if (together !== null)
    sentences.push(
      `With ${together.paths.map(inputName).join('; ')} all known it would be ${percent(together.narrower)} narrower.`,
    );
  if (likely !== null && sentences.length > 0)
    sentences.push(
      `For the edges no input stands out of its error; the largest share has ${inputName(likely.path)}, ${shareText(likely)}, and more members would tell.`,
    );
  return sentences.length === 0
    ? `With ${bands.members} members no single input stands out of its error; more members tell more.`
    : sentences.join(' ');
}
