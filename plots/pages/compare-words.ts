/** Drafts side by side in words, for the page and for the terminal. */

import type {
  BestOfDrafts,
  ComparedDraft,
  DraftDifference,
  DraftSummary,
  TargetAnswer,
} from '../../src/findings/answers/compare.ts';
import { degrees, fixed, kilowatts, newtonMetres, rpm, speed, THIN } from '../theme/numbers.ts';

/** What separates a draft from the first, one sentence. */
export function differenceText({ shift, wider, landsNowhere, torque, power }: DraftDifference): string {
  const gain = (change: number, unit: string, what: string): string =>
    `${change > 0 ? 'gains' : 'loses'} ${fixed(Math.abs(change), 1)}${THIN}${unit} ${what}`;
  const parts = [
    shift !== null &&
      `holds the plug-back ${speed(Math.abs(shift))}${THIN}rpm ${shift < 0 ? 'lower' : 'higher'}`,
    wider !== null && `over a span ${speed(Math.abs(wider))}${THIN}rpm ${wider > 0 ? 'wider' : 'narrower'}`,
    landsNowhere && 'nowhere lands the wave as wanted',
    torque !== null && gain(torque, 'Nm', 'of best torque'),
    power !== null && gain(power, 'kW', 'of best power'),
  ].filter((part) => part !== false);
  return parts.length === 0 ? 'no difference that the model can tell' : parts.join('; ');
}

/** The width of a band; `≥` where it goes on beyond the computed speeds. */
export const bandText = (width: number | null, isOpen: boolean): string =>
  width === null ? '–' : `${isOpen ? '≥ ' : ''}${speed(width)}`;

const namesOf = (drafts: readonly ComparedDraft[]): string => {
  const quoted = drafts.map(({ summary }) => `“${summary.name}”`);
  return quoted.length < 2 ? (quoted[0] ?? '') : `${quoted.slice(0, -1).join(', ')} and ${quoted.at(-1)}`;
};

export function compareHeadline(best: BestOfDrafts | null, count: number): string {
  if (best === null) return 'No draft was finished.';
  const { strong, wide } = best;
  const power = `${best.powerAtEnd ? 'at least ' : ''}${kilowatts(best.power)} at ${rpm(best.powerSpeed)}`;
  const width = `${best.widthOpen ? 'at least ' : ''}${speed(best.width)}${THIN}rpm wide`;
  if (strong.length === 1 && wide.length === 1 && strong[0] === wide[0])
    return `${namesOf(strong)} has both the most power, ${power}, and the broadest torque, ${width}.`;
  const powerful =
    strong.length === 1
      ? `${namesOf(strong)} has the most power, ${power}`
      : `${strong.length === count ? 'All' : namesOf(strong)} share the most power, ${power}`;
  const broadest =
    wide.length === 1
      ? `${namesOf(wide)} the broadest torque, ${width}`
      : wide.length === count
        ? 'their torque is equally broad to a step of speed'
        : `${namesOf(wide)} share the broadest torque`;
  return `${powerful}; ${broadest}.`;
}

/** A best at the first or last computed speed is the best of those asked for only. */
export function endWords({ summary, torqueAtEnd, powerAtEnd }: ComparedDraft): string {
  const cut = [...(torqueAtEnd ? ['torque'] : []), ...(powerAtEnd ? ['power'] : [])];
  return cut.length === 0
    ? ''
    : `${summary.name}: most ${cut.join(' and ')} at the end of the range; the best may lie beyond.`;
}

/** Which draft serves the target speed. */
export function targetText({ wanted, speedRpm, most, landings }: TargetAnswer): string {
  if (speedRpm === null) return 'Not among the computed speeds; name it with --rpm.';
  const computed = speedRpm === wanted ? '' : `At ${rpm(speedRpm)}, the nearest computed: `;
  const best =
    most === null
      ? 'No torque was computed there'
      : `Most torque with ${most.name}, ${newtonMetres(most.torque)}`;
  const where = (['lands', 'early', 'late', 'none'] as const).flatMap((kind) => {
    const names = landings.filter(({ landing }) => landing === kind).map(({ name }) => name);
    return names.length === 0 ? [] : [`${verdicts[kind]} with ${names.join(', ')}`];
  });
  return `${computed}${best}. The wave ${where.join(', ')}.`;
}

export const verdicts = {
  lands: 'lands as wanted',
  early: 'comes too early',
  late: 'comes too late',
  none: 'is not found',
} as const;

/** A crank angle against exhaust closing (EC). */
export const leadText = (lead: number | null): string =>
  lead === null ? '–' : `${degrees(Math.abs(lead))} ${lead >= 0 ? 'before' : 'after'} EC`;

/** The speeds at which the wave lands as wanted. */
export const usefulText = ({ usefulFrom, usefulTo }: DraftSummary): string =>
  usefulFrom === null || usefulTo === null
    ? 'nowhere'
    : usefulFrom === usefulTo
      ? speed(usefulFrom)
      : `${speed(usefulFrom)}–${speed(usefulTo)}`;
