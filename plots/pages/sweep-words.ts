/** A sweep's answer in words, for the page, the terminal and the index. */

import type { AdviceReport } from '../../src/findings/answers/advice.ts';
import type { BandsAnswer } from '../../src/findings/answers/bands.ts';
import type { SweepAnswer, TargetOfSweep } from '../../src/findings/answers/sweep.ts';
import type { Limit } from '../../src/findings/answers/sweep-limits.ts';
import { EDGE_STEP, type SpeedSpan } from '../../src/findings/band.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { fixed, kilowatts, newtonMetres, percent, rpm, THIN } from '../theme/numbers.ts';
import { adviceText, purposeLabel, unadvisedText, unadvisedTogether } from './advice-words.ts';
import { bandEdges } from './band-words.ts';
import { measureText, sureHeadline, sureText, troublesText } from './bands-words.ts';
import { holesText } from './hole-words.ts';
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

/** Without advice, what it would say is left out; without members, how sure it is. */
export function sweepText(
  answer: SweepAnswer,
  advice: AdviceReport | null = null,
  sure: BandsAnswer | null = null,
): SweepText {
  const { limits, target, holes } = answer;
  return {
    headline: (sure === null ? null : sureHeadline(sure)) ?? headline(answer),
    lines: [
      ...(sure === null ? [] : sureLines(sure, answer)),
      ...best(answer),
      ...(target === null ? [] : [targetLine(target)]),
      ...ways(advice),
      ...broad(answer),
      { label: 'What limits', text: limitsText(limits) },
      ...(holes.length === 0 ? [] : [{ label: 'In the curve', text: holesText(holes) }]),
    ],
  };
}

function sureLines(sure: BandsAnswer, answer: SweepAnswer): AnswerLine[] {
  const troubles = troublesText(sure.bands.troubles);
  return [
    { label: 'How sure', text: sureText(sure, answer) },
    { label: 'What to measure', text: measureText(sure) },
    ...(troubles === '' ? [] : [{ label: 'Members', text: troubles }]),
  ];
}

const misses = {
  none: 'No plug-back was found at any of the computed speeds.',
  early: 'The wave comes back too early at every computed speed: the pipe is too short for them.',
  late: 'The wave comes back too late at every computed speed: the pipe is too long for them.',
  mixed: 'At none of the computed speeds does the main share of the wave land in the wanted window.',
} as const;

function headline({ band, misses: how }: SweepAnswer): string {
  const { lands, works, openBelow, openAbove } = band;
  const span = works ?? lands;
  if (span === null) return misses[how ?? 'none'];
  const beyond = [
    openBelow ? `below ${rpm(span.from)}` : '',
    openAbove ? `above ${rpm(span.to)}` : '',
  ].filter((part) => part !== '');
  const open =
    beyond.length === 0 ? '' : `The band goes on ${beyond.join(' and ')}, where the computed speeds end. `;
  const held =
    works === null
      ? ', but nowhere there with 90 % of the best torque'
      : ', with at least 90 % of the best torque';
  return `${open}The wave comes back when the port wants it ${spanText(span, band)}${held}.`;
}

const spanText = (
  span: SpeedSpan,
  { openBelow, openAbove }: { openBelow: boolean; openAbove: boolean },
): string =>
  span.to - span.from < EDGE_STEP ? `at ${rpm(span.from)}` : bandEdges({ ...span, openBelow, openAbove });

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

/** What was run to change it, and where nothing is advised, why. */
function ways(report: AdviceReport | null): AnswerLine[] {
  if (report === null) return [];
  // What holds for several purposes is said in one line.
  const shared = (['did not settle', 'no budget'] as const).flatMap((why) => {
    const alike = report.none.filter((one) => one.why === why);
    return why === 'no budget' || alike.length > 1 ? [alike] : [];
  });
  const lines = [
    ...report.advice.map((one) => ({ purpose: one.for, text: adviceText(one), advised: true })),
    ...report.none
      .filter((one) => !shared.flat().includes(one))
      .map((one) => ({ purpose: one.for, text: unadvisedText(one), advised: false })),
  ];
  const said = (['target', 'lower', 'higher', 'output'] as const).flatMap((purpose) =>
    lines
      .filter((line) => line.purpose === purpose)
      .map(({ text, advised }) => ({
        label: purposeLabel[purpose],
        text,
        ...(advised && (purpose === 'lower' || purpose === 'higher') ? { way: purpose } : {}),
      })),
  );
  const none = shared.filter((alike) => alike.length > 0).map(unadvisedTogether);
  const label = said.length === 0 ? 'Advice' : 'Further advice';
  return none.length === 0 ? said : [...said, { label, text: none.join(' ') }];
}

/** How wide the torque is, and how sharp the edge of the useful speeds. */
function broad({ broad: held, band }: SweepAnswer): AnswerLine[] {
  if (held === null) return [];
  const { works } = band;
  const isSaid = (a: number, b: number): boolean => Math.abs(a - b) < EDGE_STEP;
  // The headline has said it where the torque is held just where the pipe works.
  if (works !== null && isSaid(works.from, held.band.from) && isSaid(works.to, held.band.to)) return [];
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
      return `up to ${rpm(limit.upTo)} the wave is back before the transfers close`;
    case 'late': {
      const how = {
        after: 'it comes after the exhaust has closed',
        at: 'it comes as the exhaust closes',
        partly: `only ${percent(limit.share)} of it has arrived when the exhaust closes`,
      }[limit.how];
      return `from ${rpm(limit.from)} ${how}`;
    }
    case 'blowdown': {
      const stands = `at best power the cylinder stands ${fixed(limit.excessBar, 1)}${THIN}bar above the crankcase as the transfers open`;
      const back = percent(limit.backShare);
      return limit.look === 'port'
        ? `${stands} and blows ${back} of the charge back: the port is small for it`
        : `${stands}, yet blows only ${back} of the charge back: the port will do`;
    }
    case 'passage':
      return `the exhaust passage reaches Mach ${fixed(limit.mach, 2)} at best power, all but choked`;
  }
}

/** Torque from this share of the best on is told as the best. */
const AS_MUCH = 0.995;

function targetLine({ wanted, row, landing, torqueShare, isBest }: TargetOfSweep): AnswerLine {
  const label = `Target ${rpm(wanted)}`;
  if (row === null) return { label, text: 'Not among the computed speeds; name it with --rpm.' };
  const at = row.speed_rpm === wanted ? '' : `At ${rpm(row.speed_rpm)}, the nearest computed: `;
  const there = ` ${newtonMetres(row.torque_nm)} there, `;
  const torque = isBest
    ? ' The torque is best there.'
    : torqueShare === null
      ? ''
      : torqueShare > AS_MUCH
        ? `${there}as much as at best.`
        : `${there}${percent(torqueShare)} of the best.`;
  const where = {
    lands: 'The wave lands as wanted',
    early: 'The wave comes back too early, its middle before the transfers close',
    late: `The wave comes back too late: its middle ${middleWords(row)}`,
    none: 'No plug-back was found',
  }[landing];
  return { label, text: `${at}${where}.${torque}` };
}
