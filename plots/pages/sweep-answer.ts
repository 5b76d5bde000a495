/**
 * The answer in words: where the wave lands, best torque and power, what limits, and which way to change the pipe.
 *
 * A pipe of the same shape, longer in the ratio L'/L, does at N L/L' what the first did at N (similarity: time goes with
 * length over wave speed). So ΔL = L ΔN/N, with L from the port face to the middle of the baffle. A longer header does more
 * than a longer pipe of the same shape: the gas comes cooler to the cones and the wave runs back against a faster stream.
 * `headerShare` allows for it; the estimate is for a first cut, the next sweep tells.
 */

import { landingBands, type SpeedSpan } from '../../src/findings/band.ts';
import { computedSpeeds, highest, nearest } from '../../src/findings/curve.ts';
import { type Landing, landing, middleLead } from '../../src/findings/landing.ts';
import type { OutlineSection } from '../../src/findings/record.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { fixed, kilowatts, newtonMetres, percent, rpm, speed, thin } from '../theme/numbers.ts';
import { middleWords } from './landing-words.ts';

export interface AnswerLine {
  readonly label: string;
  readonly text: string;
  /** The two lines that say which way to change the pipe. */
  readonly way?: 'lower' | 'higher';
}

export interface SweepAnswer {
  readonly headline: string;
  readonly lines: readonly AnswerLine[];
}

/**
 * Share of the similar pipe's ΔL that the header alone takes [-]. Re-runs with headers 25 to 90 mm longer or shorter gave
 * 0.71 and 0.61 for 40 mm more and less of the invented draft A, 0.66 and 0.64 for the invented 250 and 50.
 */
export const headerShare = 0.7;

/** From the port face to the middle of the baffle [m]; null without a baffle. */
export function reflectingLength(outline: readonly OutlineSection[]): number | null {
  const baffle = outline.filter((stretch) => stretch.role === 'baffle');
  const start = baffle[0]?.start;
  const end = baffle.at(-1)?.end;
  return start === undefined || end === undefined ? null : (start + end) / 2;
}

const headerLength = (outline: readonly OutlineSection[]): number =>
  outline
    .filter((stretch) => stretch.role === 'header')
    .reduce((sum, stretch) => sum + stretch.end - stretch.start, 0);

/** Length of header that moves the landing by 500 rpm about a speed [m]; null if it cannot be told. */
export function lengthFor500(outline: readonly OutlineSection[], about: number): number | null {
  const length = reflectingLength(outline);
  return length === null || !(about > 0) ? null : (headerShare * length * 500) / about;
}

const band = ({ from, to }: SpeedSpan): string =>
  from === to ? `at ${rpm(from)}` : `from ${speed(from)} to ${rpm(to)}`;

function headline(rows: readonly SweepRow[], bands: readonly SpeedSpan[]): string {
  const widest = bands[0];
  if (widest) {
    const others = bands.length > 1 ? `, and ${bands.slice(1).map(band).join(', ')}` : '';
    return `The wave comes back when the port wants it ${band(widest)}${others}.`;
  }
  const found = new Set<Landing>(rows.map(landing));
  const only = (...kinds: Landing[]): boolean => [...found].every((kind) => kinds.includes(kind));
  if (found.size === 0 || only('none')) return 'No plug-back was found at any of the computed speeds.';
  if (only('early', 'none'))
    return 'The wave comes back too early at every computed speed: the pipe is too short for them.';
  if (only('late', 'none'))
    return 'The wave comes back too late at every computed speed: the pipe is too long for them.';
  return 'At none of the computed speeds does the main share of the wave land in the wanted window.';
}

/** Share of the charge blown back above which the port is to be looked at before the pipe [-]. Judgement, no source. */
const muchBackFlow = 0.05;

/** The blow-down at best power, and what to do about it. */
function blowdownLimit(power: SweepRow): string | null {
  const excess = (power.transfer_opening_cylinder_bar ?? 0) - (power.transfer_opening_crankcase_bar ?? 0);
  const back = power.transfer_backflow_ratio ?? 0;
  const stands = `at best power the cylinder stands ${fixed(excess, 1)}${thin}bar above the crankcase as the transfers open`;
  if (back >= muchBackFlow)
    return `${stands} and blows ${percent(back)} of the charge back: raise or widen the exhaust port`;
  if (excess > 0.05 && back > 0.005)
    return `${stands}, yet blows only ${percent(back)} of the charge back: leave the port and tune the pipe`;
  return null;
}

function limits(rows: readonly SweepRow[], widest: SpeedSpan | undefined): string {
  const found: string[] = [];
  const above = widest && rows.find((row) => row.speed_rpm > widest.to && landing(row) !== 'none');
  const below =
    widest && [...rows].reverse().find((row) => row.speed_rpm < widest.from && landing(row) === 'early');
  if (below)
    found.push(
      `up to ${rpm(below.speed_rpm)} the wave is back before the transfers close, where a longer header helps`,
    );
  if (above) {
    const lead = middleLead(above) ?? 0;
    const how =
      lead <= -1
        ? 'it comes after the exhaust has closed'
        : lead < 1
          ? 'it comes as the exhaust closes'
          : `only ${percent(above.plugback_share_before_closing)} of it has arrived when the exhaust closes`;
    found.push(`from ${rpm(above.speed_rpm)} ${how}, where a shorter header helps`);
  }
  const power = highest(rows, 'power_kw');
  const blowdown = power === null ? null : blowdownLimit(power);
  if (blowdown !== null) found.push(blowdown);
  if ((power?.passage_exit_mach_max ?? 0) > 0.9)
    found.push(
      `the exhaust passage reaches Mach ${fixed(power?.passage_exit_mach_max, 2)} at best power, where a larger exit helps`,
    );
  const sentence = found.join('; ');
  return sentence === ''
    ? 'Nothing within the computed speeds.'
    : `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}.`;
}

/** Share of the best torque that counts as held [-]. */
const heldShare = 0.9;

/** Edges of the held torque are no surer than this [rpm]. */
const edgeStep = 50;

/**
 * Speeds about the best torque at which it stays above a share of it, straight between the computed ones [rpm]; null
 * without a torque. `open`: it is still held at that end of the computed speeds.
 */
export function heldTorque(
  rows: readonly SweepRow[],
): (SpeedSpan & { readonly open: { readonly from: boolean; readonly to: boolean } }) | null {
  const top = highest(rows, 'torque_nm');
  if (top === null) return null;
  const level = heldShare * (top.torque_nm ?? 0);
  const start = rows.indexOf(top);
  const edge = (way: 1 | -1): { readonly at: number; readonly open: boolean } => {
    for (let i = start; ; i += way) {
      const [here, next] = [rows[i], rows[i + way]];
      const [a, b] = [here?.torque_nm ?? level, next?.torque_nm];
      const at = here?.speed_rpm ?? top.speed_rpm;
      if (next === undefined || b === null || b === undefined) return { at, open: true };
      if (b < level) return { at: at + ((a - level) / (a - b)) * (next.speed_rpm - at), open: false };
    }
  };
  const [from, to] = [edge(-1), edge(1)];
  return { from: from.at, to: to.at, open: { from: from.open, to: to.open } };
}

/** How wide the torque is, and how sharp the edge of the useful speeds. */
function held(rows: readonly SweepRow[], widest: SpeedSpan | undefined): AnswerLine[] {
  const range = heldTorque(rows);
  if (range === null || rows.length < 3) return [];
  const { open } = range;
  const about = (value: number, isEnd: boolean): string =>
    speed(isEnd ? value : edgeStep * Math.round(value / edgeStep));
  const ends = `from ${about(range.from, open.from)}${open.from ? ' or below' : ''} to about ${about(range.to, open.to)}${thin}rpm${open.to ? ' or above' : ''}`;
  const soft = widest !== undefined && range.from < widest.from - edgeStep;
  const edge = soft
    ? `; below ${rpm(widest.from)} the wave is early, but the torque falls off slowly: the lower edge is soft`
    : '';
  return [{ label: 'Broad torque', text: `Above ${percent(heldShare)} of the best ${ends}${edge}.` }];
}

/** Change of the header worth naming [m]: a smaller one is within what the estimate can tell. */
const leastChange = 0.01;

/** Millimetres in fives: the estimate claims no more. */
const fives = (metres: number): string => `${Math.max(5, 5 * Math.round(200 * metres))}${thin}mm`;

/** Best torque and power, on one line where one speed has both. */
function best(torque: SweepRow | null, power: SweepRow | null): AnswerLine[] {
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

export function sweepAnswer(
  rows: readonly SweepRow[],
  outline: readonly OutlineSection[],
  targetSpeed: number | null,
): SweepAnswer {
  const bands = landingBands(rows);
  const widest = bands[0];
  const torque = highest(rows, 'torque_nm');
  const power = highest(rows, 'power_kw');
  const centre = widest ? (widest.from + widest.to) / 2 : (torque?.speed_rpm ?? rows[0]?.speed_rpm ?? 0);
  const lines: AnswerLine[] = best(torque, power);
  const length = lengthFor500(outline, centre);
  const amount = length === null ? '' : ` by about ${fives(length)} for each 500${thin}rpm`;
  const scarce = length !== null && length > headerLength(outline) / 2;
  lines.push(
    {
      label: 'For a lower speed',
      text: `Lengthen the header${amount} lower: a longer way brings the wave back later.`,
      way: 'lower',
    },
    {
      label: 'For a higher speed',
      text: `Shorten the header${amount} higher: a shorter way brings the wave back sooner.${scarce ? ' This header is short: take it off the cones instead.' : ''}`,
      way: 'higher',
    },
  );
  lines.push(...held(rows, widest), { label: 'What limits', text: limits(rows, widest) });
  if (targetSpeed !== null)
    lines.push(target(rows, widest, targetSpeed, change(length, centre, targetSpeed, outline)));
  return { headline: headline(rows, bands), lines };
}

/**
 * What brings the middle of the useful speeds to a target. Over a wide step the length goes with the inverse of the
 * speed, L' = L N / N', so the 500 rpm at N are scaled by N / N'.
 */
function change(
  length: number | null,
  centre: number,
  targetSpeed: number,
  outline: readonly OutlineSection[],
): string {
  const gap = targetSpeed - centre;
  if (length === null) return '';
  const amount = (Math.abs(gap) / 500) * length * (centre / targetSpeed);
  if (amount < leastChange) return '';
  const much =
    gap > 0 && amount > headerLength(outline) / 2
      ? ', more than the header can give: shorten the cones too, or aim a new pipe'
      : '';
  return `; to bring the middle of the useful speeds there, ${gap < 0 ? 'lengthen' : 'shorten'} the header by about ${fives(amount)}${much}`;
}

function target(
  rows: readonly SweepRow[],
  widest: SpeedSpan | undefined,
  targetSpeed: number,
  advice: string,
): AnswerLine {
  const label = `Target ${rpm(targetSpeed)}`;
  const row = nearest(rows, targetSpeed);
  const { first, last, step } = computedSpeeds(rows);
  if (!row || targetSpeed < first - step / 2 || targetSpeed > last + step / 2)
    return { label, text: 'Not among the computed speeds; name it with --rpm.' };
  const at = row.speed_rpm === targetSpeed ? '' : `At ${rpm(row.speed_rpm)}, the nearest computed: `;
  const kind = landing(row);
  const best = highest(rows, 'torque_nm');
  const share = (row.torque_nm ?? 0) / (best?.torque_nm ?? Number.NaN);
  const torque =
    row === best
      ? ' The torque is best there.'
      : share > 0.995
        ? ` ${newtonMetres(row.torque_nm)} there, as much as at best.`
        : Number.isFinite(share)
          ? ` ${newtonMetres(row.torque_nm)} there, ${percent(share)} of the best.`
          : '';
  const where = {
    lands: 'The wave lands as wanted',
    early: 'The wave comes back too early, its middle before the transfers close',
    late: `The wave comes back too late: its middle ${middleWords(row)}`,
    none: 'No plug-back was found',
  }[kind];
  return { label, text: `${at}${where}${widest && kind !== 'lands' ? advice : ''}.${torque}` };
}
