/** A map in words and a table of one speed, for the terminal. */

import { meshText } from '../../../plots/pages/mesh-words.ts';
import { ALIKE_SHARE, type Extreme } from '../../findings/answers/duration-line.ts';
import type { BestTorque, MapAnswer } from '../../findings/answers/map.ts';
import { RESONANT_DEG } from '../../findings/answers/map-echo.ts';
import type { Step } from '../../findings/answers/map-step.ts';
import type { SpeedSpan } from '../../findings/band.ts';
import { middleLead } from '../../findings/landing.ts';
import type { DurationPoint } from '../../findings/row.ts';
import type { MapResult } from '../../study/map/map.ts';
import { folded } from '../frame/folded.ts';
import { plainText } from '../frame/plain-text.ts';
import { type Column, tableText } from '../frame/table.ts';
import { terminalWords } from './page-words.ts';

const fixed = (value: number | null, digits: number): string => value?.toFixed(digits) ?? '-';
const percent = (share: number | null, digits: number): string =>
  fixed(share === null ? null : 100 * share, digits);
const whole = (value: number): string => String(Number(value.toFixed(1)));
/** Between computed speeds a crossing is known to this [rpm]. */
const SPEED_STEP = 100;
const aboutRpm = (values: readonly number[]): string =>
  values.map((value) => (SPEED_STEP * Math.round(value / SPEED_STEP)).toFixed(0)).join(', ');

export function mapText(result: MapResult, answer: MapAnswer | null, colour: boolean): string {
  const mesh = terminalWords(meshText(result.case.run.cell));
  const lines = [plainText(result.case.name), keptWords(result), mesh];
  if (answer === null) return `${lines.join('\n')}\nNo point was finished.\n${failures(result)}`;
  lines.push('', ...mapFindings(answer).map(({ text }) => text));
  const loose = result.points.filter(({ row }) => !row.settled).length;
  if (loose > 0) lines.push(`${loose} of ${result.points.length} points did not settle; they are marked.`);
  const best = answer.bestTorque?.durationDeg;
  return [
    ...lines.map((line) => folded(line)),
    '',
    folded(
      `At ${answer.speedRpm} rpm. > marks the most torque, * the duration nearest to the drawn one. Lead: EC less the middle of the wave.`,
    ),
    tableText(columnsOf(answer), answer.column, { marked: (p) => p.durationDeg === best, colour }),
    failures(result),
  ].join('\n');
}

/** What the map says, each with what it answers. */
export interface MapFinding {
  readonly label: string;
  readonly text: string;
  /** It says what to change. */
  readonly way?: boolean;
}

export function mapFindings(answer: MapAnswer): MapFinding[] {
  const { isTarget, speedRpm, askedDeg, longer, shorter } = answer;
  const at = isTarget ? `Target ${speedRpm} rpm` : `${speedRpm} rpm`;
  const steps = [longer, shorter].flatMap((step) => (step === null ? [] : [step]));
  return [
    { label: at, text: speedWords(answer).join(' ') },
    ...drawnWords(answer).map((text) => ({ label: `As drawn, ${whole(askedDeg)} deg`, text })),
    ...steps.map((step) => ({
      label: step === longer ? 'A step longer' : 'A step shorter',
      text: stepWords(step, answer),
      way: true,
    })),
    { label: 'The echo', text: echoWords(answer) },
  ];
}

/** What moves with the roof and what is kept. */
export function keptWords({ drawnDurationDeg, compression, durations }: MapResult): string {
  const { trapped } = compression;
  return (
    `Drawn: ${whole(drawnDurationDeg)} deg. All exhaust roofs move together by the same height; floors, head and pipe ` +
    `stay: compression ${compression.full.toFixed(2)} over the full stroke, from exhaust closing ` +
    `${trapped[0]?.toFixed(2)} at ${durations[0]} deg to ${trapped.at(-1)?.toFixed(2)} at ${durations.at(-1)} deg.`
  );
}

function speedWords(answer: MapAnswer): string[] {
  const { bestTorque, landsDeg, meetsDeg, side } = answer;
  const at = `At ${answer.speedRpm} rpm${answer.isTarget ? ' (target)' : ''}`;
  const meets =
    meetsDeg.length > 0
      ? `The middle of the wave meets exhaust closing at about ${meetsDeg.map((value) => value.toFixed(0)).join(', ')} deg`
      : `The middle of the wave comes ${side} exhaust closing at every duration`;
  return [
    ...(bestTorque === null ? [] : [`${at}: ${bestWords(bestTorque)}${against(answer)}${edge(bestTorque)}.`]),
    `${meets}; it lands as wanted ${spansText(landsDeg, 'deg', 'at no duration')}.`,
  ];
}

function bestWords({ alike, durationDeg, value }: BestTorque): string {
  return alike.from === alike.to
    ? `most torque with ${durationDeg} deg, ${value.toFixed(1)} Nm`
    : `${alike.from} to ${alike.to} deg are all within ${100 * ALIKE_SHARE} % of the most torque ` +
        `(${between(alike.lowest.toFixed(1), value.toFixed(1))} Nm)`;
}

/** What the best gains on the drawn duration, to follow it. */
function against({ gain, drawnDeg }: MapAnswer): string {
  if (gain === null) return '';
  return gain.isWorthIt
    ? `, at best ${gain.torque.toFixed(1)} Nm more than at ${drawnDeg} deg`
    : '; as drawn is as good';
}

function drawnWords({ askedDeg, drawnBest, drawnDeg, meetsRpm, landsRpm }: MapAnswer): string[] {
  if (drawnBest === null) return [];
  const meets =
    meetsRpm.length === 0
      ? 'the middle of the wave meets exhaust closing at no speed of the map'
      : `the middle of the wave meets exhaust closing at about ${aboutRpm(meetsRpm)} rpm`;
  const nearest =
    whole(askedDeg) === whole(drawnDeg) ? `With ${drawnDeg} deg` : `Nearest computed, ${drawnDeg} deg`;
  return [
    `${nearest}: most torque at ${drawnBest.speedRpm} rpm, ${drawnBest.torque.toFixed(1)} Nm; ${meets}; ` +
      `it lands as wanted ${spansText(landsRpm, 'rpm', 'at no speed')}.`,
  ];
}

const verdicts = {
  gains: 'gains',
  loses: 'loses',
  same: 'leaves the torque as it is',
  unknown: 'has no torque to compare',
} as const;

/** What a step gains or loses, and by what it does so. */
function stepWords(step: Step, { speedRpm }: MapAnswer): string {
  const by = Math.abs(step.toDeg - step.fromDeg);
  const roof = Math.abs(1000 * step.roof).toFixed(1);
  const way = step.toDeg > step.fromDeg ? ['longer', 'higher'] : ['shorter', 'lower'];
  const { verdict } = step;
  const amount =
    verdict === 'gains' || verdict === 'loses' ? ` ${Math.abs(step.torque ?? 0).toFixed(1)} Nm` : '';
  const parts: string[] = [];
  const add = (value: number | null, digits: number, text: (size: string, up: boolean) => string): void => {
    const size = Math.abs(value ?? 0).toFixed(digits);
    if (value !== null && Number(size) !== 0) parts.push(text(size, value > 0));
  };
  add(
    step.leadDeg,
    1,
    (size, up) => `the wave's middle lies ${size} deg ${up ? 'further before' : 'nearer to'} exhaust closing`,
  );
  const packed = step.packed === null ? null : 100 * step.packed;
  add(packed, 1, (size, up) => `${size} % ${up ? 'more' : 'less'} of the charge is packed back`);
  add(
    step.openingBar,
    2,
    (size, up) => `the cylinder stands ${size} bar ${up ? 'higher' : 'lower'} as the transfers open`,
  );
  add(step.echoGain, 2, (size, up) => `the echo gain ${up ? 'rises' : 'falls'} by ${size}`);
  const how = parts.length === 0 ? '' : `: ${parts.join(', ')}`;
  return `At ${speedRpm} rpm, ${by} deg ${way[0]} (${step.fromDeg} to ${step.toDeg}, roofs ${roof} mm ${way[1]}) ${verdicts[verdict]}${amount}${how}.`;
}

const echoVerdicts = {
  edge: `That is the edge of the map: no peak near ${RESONANT_DEG} deg here`,
  indistinct: `The edge of the map has as much: no distinct peak, near ${RESONANT_DEG} deg or elsewhere`,
  resonant: `That is a peak near ${RESONANT_DEG} deg, as common practice has it`,
  elsewhere: `That is a peak, but not near the ${RESONANT_DEG} deg of common practice`,
} as const;

/** Where the echo is strongest, as found. */
export function echoWords({ echo, speedRpm }: MapAnswer): string {
  if (echo === null) return 'The echo could not be read.';
  const { most, least, kind } = echo;
  const gain = `Echo gain (the settled outgoing pulse over that of a first cycle into a quiet pipe) at ${speedRpm} rpm`;
  if (kind === 'flat') return `${gain}: ${most.value.toFixed(2)} at every duration, so it chooses none.`;
  return (
    `${gain} is largest with ${most.durationDeg} deg (${most.value.toFixed(2)}), smallest with ` +
    `${least.durationDeg} deg (${least.value.toFixed(2)}). ${echoVerdicts[kind]}.`
  );
}

const edge = ({ atEdge }: Extreme): string => (atEdge ? ' (edge of the map; the best may lie beyond)' : '');

function spansText(spans: readonly SpeedSpan[], unit: string, none: string): string {
  const each = spans.map(({ from, to }) =>
    from === to ? `at ${from} ${unit}` : `from ${from} to ${to} ${unit}`,
  );
  return each.length === 0 ? none : each.join(' and ');
}

function columnsOf({ drawnDeg }: MapAnswer): readonly Column<DurationPoint>[] {
  return [
    {
      header: 'Duration',
      unit: 'deg',
      text: (p) => `${p.durationDeg === drawnDeg ? '*' : ''}${p.durationDeg}`,
    },
    { header: 'lead', unit: 'deg', text: (p) => fixed(middleLead(p.row), 1) },
    { header: 'middle', unit: 'deg', text: (p) => fixed(p.row.plugback_centroid_deg, 1) },
    { header: 'peak', unit: 'deg', optional: true, text: (p) => fixed(p.row.plugback_peak_deg, 1) },
    { header: 'before EC', unit: '%', text: (p) => percent(p.row.plugback_share_before_closing, 0) },
    { header: 'packed', unit: '%', text: (p) => percent(p.row.packed_mass_ratio, 1) },
    { header: 'cyl. TO', unit: 'bar', text: (p) => fixed(p.row.transfer_opening_cylinder_bar, 2) },
    { header: 'echo', unit: '-', optional: true, text: (p) => fixed(p.row.echo_gain, 2) },
    { header: 'torque', unit: 'Nm', text: (p) => fixed(p.row.torque_nm, 2) },
    { header: '', align: 'left', text: (p) => (p.row.settled ? '' : 'not settled') },
  ];
}

function failures(result: MapResult): string {
  return result.failures
    .map((f) => `${f.speedRpm} rpm at ${f.durationDeg} deg failed: ${plainText(f.reason)}\n`)
    .join('');
}

/** "21.8 to 21.9", or "21.9" where both are written alike. */
function between(low: string, high: string): string {
  return low === high ? high : `${low} to ${high}`;
}
