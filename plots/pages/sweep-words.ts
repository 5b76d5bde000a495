/** A sweep's answer in words, for the page, the terminal and the index. */

import type { HeaderChange, SweepAnswer, TargetOfSweep } from '../../src/findings/answers/sweep.ts';
import type { Limit } from '../../src/findings/answers/sweep-limits.ts';
import type { SpeedSpan } from '../../src/findings/band.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { fixed, kilowatts, newtonMetres, percent, rpm, speed, thin } from '../theme/numbers.ts';
import { bandEdges } from './band-words.ts';
import { middleWords } from './landing-words.ts';

export interface AnswerLine {
  readonly label: string;
  readonly text: string;
  /** The two lines that say which way to change the pipe. */
  readonly way?: 'lower' | 'higher';
}

export interface SweepText {
  readonly headline: string;
  readonly lines: readonly AnswerLine[];
}

export function sweepText(answer: SweepAnswer): SweepText {
  const { limits, target } = answer;
  return {
    headline: headline(answer),
    lines: [
      ...best(answer),
      ...ways(answer),
      ...broad(answer),
      { label: 'What limits', text: limitsText(limits) },
      ...(target === null ? [] : [targetLine(target)]),
    ],
  };
}

const band = ({ from, to }: SpeedSpan): string =>
  from === to ? `at ${rpm(from)}` : `from ${speed(from)} to ${rpm(to)}`;

const misses = {
  none: 'No plug-back was found at any of the computed speeds.',
  early: 'The wave comes back too early at every computed speed: the pipe is too short for them.',
  late: 'The wave comes back too late at every computed speed: the pipe is too long for them.',
  mixed: 'At none of the computed speeds does the main share of the wave land in the wanted window.',
} as const;

function headline({ lands, misses: how }: SweepAnswer): string {
  const [widest, ...rest] = lands;
  if (widest === undefined) return misses[how ?? 'none'];
  const others = rest.length > 0 ? `, and ${rest.map(band).join(', ')}` : '';
  return `The wave comes back when the port wants it ${band(widest)}${others}.`;
}

/** Best torque and power, on one line where one speed has both. */
function best({ torque, power }: SweepAnswer): AnswerLine[] {
  const line = (label: string, value: string, row: SweepRow): AnswerLine => ({
    label,
    text: `${value} at ${rpm(row.speed_rpm)}; there the middle of the wave ${middleWords(row)}.`,
  });
  const turning = newtonMetres(torque?.torque_nm);
  const pulling = kilowatts(power?.power_kw);
  if (torque && torque === power)
    return [line('Best torque and power', `${turning} and ${pulling}, both`, torque)];
  return [
    ...(torque ? [line('Best torque', turning, torque)] : []),
    ...(power ? [line('Best power', pulling, power)] : []),
  ];
}

/** Millimetres in fives: the estimate claims no more. */
const fives = (metres: number): string => `${Math.max(5, 5 * Math.round(200 * metres))}${thin}mm`;

function ways({ header }: SweepAnswer): AnswerLine[] {
  const amount = header === null ? '' : ` by about ${fives(header.lengthFor500)} for each 500${thin}rpm`;
  const scarce = header?.isScarce ? ' This header is short: take it off the cones instead.' : '';
  return [
    {
      label: 'For a lower speed',
      text: `Lengthen the header${amount} lower: a longer way brings the wave back later.`,
      way: 'lower',
    },
    {
      label: 'For a higher speed',
      text: `Shorten the header${amount} higher: a shorter way brings the wave back sooner.${scarce}`,
      way: 'higher',
    },
  ];
}

/** How wide the torque is, and how sharp the edge of the useful speeds. */
function broad({ broad: held }: SweepAnswer): AnswerLine[] {
  if (held === null) return [];
  const { share, softBelow } = held;
  const edge =
    softBelow === null
      ? ''
      : `; below ${rpm(softBelow)} the wave is early, but the torque falls off slowly: the lower edge is soft`;
  const text = `Above ${percent(share)} of the best ${bandEdges(held.band)}${edge}.`;
  return [{ label: 'Broad torque', text }];
}

function limitsText(limits: readonly Limit[]): string {
  const sentence = limits.map(limitText).join('; ');
  return sentence === ''
    ? 'Nothing within the computed speeds.'
    : `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}.`;
}

function limitText(limit: Limit): string {
  switch (limit.kind) {
    case 'early':
      return `up to ${rpm(limit.upTo)} the wave is back before the transfers close, where a longer header helps`;
    case 'late': {
      const how = {
        after: 'it comes after the exhaust has closed',
        at: 'it comes as the exhaust closes',
        partly: `only ${percent(limit.share)} of it has arrived when the exhaust closes`,
      }[limit.how];
      return `from ${rpm(limit.from)} ${how}, where a shorter header helps`;
    }
    case 'blowdown': {
      const stands = `at best power the cylinder stands ${fixed(limit.excessBar, 1)}${thin}bar above the crankcase as the transfers open`;
      const back = percent(limit.backShare);
      return limit.look === 'port'
        ? `${stands} and blows ${back} of the charge back: raise or widen the exhaust port`
        : `${stands}, yet blows only ${back} of the charge back: leave the port and tune the pipe`;
    }
    case 'passage':
      return `the exhaust passage reaches Mach ${fixed(limit.mach, 2)} at best power, where a larger exit helps`;
  }
}

function changeText({ way, by, isBeyondHeader }: HeaderChange): string {
  const much = isBeyondHeader
    ? ', more than the header can give: shorten the cones too, or aim a new pipe'
    : '';
  return `; to bring the middle of the useful speeds there, ${way} the header by about ${fives(by)}${much}`;
}

/** Torque from this share of the best on is told as the best. */
const asMuch = 0.995;

function targetLine({ wanted, row, landing, torqueShare, isBest, change }: TargetOfSweep): AnswerLine {
  const label = `Target ${rpm(wanted)}`;
  if (row === null) return { label, text: 'Not among the computed speeds; name it with --rpm.' };
  const at = row.speed_rpm === wanted ? '' : `At ${rpm(row.speed_rpm)}, the nearest computed: `;
  const there = ` ${newtonMetres(row.torque_nm)} there, `;
  const torque = isBest
    ? ' The torque is best there.'
    : torqueShare === null
      ? ''
      : torqueShare > asMuch
        ? `${there}as much as at best.`
        : `${there}${percent(torqueShare)} of the best.`;
  const where = {
    lands: 'The wave lands as wanted',
    early: 'The wave comes back too early, its middle before the transfers close',
    late: `The wave comes back too late: its middle ${middleWords(row)}`,
    none: 'No plug-back was found',
  }[landing];
  return { label, text: `${at}${where}${change === null ? '' : changeText(change)}.${torque}` };
}
