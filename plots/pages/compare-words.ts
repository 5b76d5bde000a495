/** Drafts side by side in words, for the page and for the terminal. */

import type { UnfinishedDraft } from '../../src/findings/answers/compare.ts';
import type { BestOfDrafts } from '../../src/findings/answers/compare-best.ts';
import type { DraftDifference } from '../../src/findings/answers/compare-difference.ts';
import type { ComparedDraft, DraftSummary } from '../../src/findings/answers/compare-summary.ts';
import type { TargetAnswer } from '../../src/findings/answers/compare-target.ts';
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

/** Which speeds are not judged, as they have no row; empty: all have one. */
export function unfinishedText(unfinished: readonly UnfinishedDraft[]): string {
  if (unfinished.length === 0) return '';
  const each = unfinished.map(({ name, missing, done }) =>
    done === 0
      ? `${name} was not run at all`
      : `${name} has no result at ${missing.map((one) => speed(one)).join(', ')}${THIN}rpm`,
  );
  return `Unfinished: ${each.join('; ')}. Only what was run is judged.`;
}

export function compareHeadline(best: BestOfDrafts | null, count: number): string {
  if (best === null) return count === 0 ? 'No draft was finished.' : 'No speed was run of all drafts.';
  const { over } = best;
  const where = over === null ? '' : `From ${speed(over.from)} to ${rpm(over.to)}, which all were run over: `;
  return `${where}${whoIsBest(best)}`;
}

function whoIsBest(best: BestOfDrafts): string {
  const { strong, wide, of: count } = best;
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
  const notRun = landings.filter(({ landing }) => landing === null).map(({ name }) => name);
  const computed = speedRpm === wanted ? '' : `At ${rpm(speedRpm)}, the nearest computed: `;
  const best =
    most === null
      ? 'No torque was computed there'
      : `Most torque with ${most.name}, ${newtonMetres(most.torque)}`;
  const where = (['lands', 'early', 'late', 'none'] as const).flatMap((kind) => {
    const names = landings.filter(({ landing }) => landing === kind).map(({ name }) => name);
    return names.length === 0 ? [] : [`${verdicts[kind]} with ${names.join(', ')}`];
  });
  const absent = notRun.length === 0 ? '' : ` Not run there: ${notRun.join(', ')}.`;
  return `${computed}${best}. The wave ${where.join(', ')}.${absent}`;
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
