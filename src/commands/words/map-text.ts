/** A map in words and a table of one speed, for the terminal. */

import type { MapPoint, MapResult } from '../../study/map/map.ts';
import {
  ALIKE_SHARE,
  type Extreme,
  type MapAnswer,
  middleLead,
  type Span,
  type Step,
} from '../../study/map/map-answer.ts';
import { folded } from '../frame/folded.ts';
import { plainText } from '../frame/plain-text.ts';
import { type Column, tableText } from '../frame/table.ts';

/** Duration near which common practice, no source, expects the strongest resonance [deg]. */
const RESONANT_DEG = 190;
const NEAR_DEG = 3;
/** Differences of torque and echo gain below these say nothing: cycles vary as much. */
const LEAST_TORQUE = 0.003;
const LEAST_GAIN = 0.02;

const deg = (value: number): string => (Number.isFinite(value) ? value.toFixed(1) : '-');
const whole = (value: number): string => String(Number(value.toFixed(1)));
/** Between computed speeds a crossing is known to this [rpm]. */
const SPEED_STEP = 100;
const aboutRpm = (values: readonly number[]): string =>
  values.map((value) => (SPEED_STEP * Math.round(value / SPEED_STEP)).toFixed(0)).join(', ');

export function mapText(result: MapResult, answer: MapAnswer | null, colour: boolean): string {
  const lines = [plainText(result.case.name), keptWords(result)];
  if (answer === null) return `${lines.join('\n')}\nNo point was finished.\n${failures(result)}`;
  lines.push('', ...mapFindings(answer).map(({ text }) => text));
  const loose = result.points.filter(({ row }) => !row.settled).length;
  if (loose > 0) lines.push(`${loose} of ${result.points.length} points did not settle; they are marked.`);
  const best = answer.bestTorque?.durationDeg;
  return [
    ...lines.map((line) => folded(line)),
    '',
    folded(
      `At ${answer.speedRpm} rpm. > marks the most torque, * the duration nearest to the drawn one. Lead: EC less the peak.`,
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
export function keptWords({ case: subject, drawnDurationDeg, compression, durations }: MapResult): string {
  const { trapped } = compression;
  return (
    `Drawn: ${whole(drawnDurationDeg)} deg. All exhaust roofs move together by the same height; floors, head and pipe ` +
    `stay: compression ${compression.full.toFixed(2)} over the full stroke, from exhaust closing ` +
    `${trapped[0]?.toFixed(2)} at ${durations[0]} deg to ${trapped.at(-1)?.toFixed(2)} at ${durations.at(-1)} deg. ` +
    `Cells of ${whole(1000 * subject.run.cell)} mm.`
  );
}

function speedWords(answer: MapAnswer): string[] {
  const { alike, bestTorque, landsDeg, meetsDeg, column } = answer;
  const at = `At ${answer.speedRpm} rpm${answer.isTarget ? ' (target)' : ''}`;
  const words: string[] = [];
  if (bestTorque !== null)
    words.push(
      alike === null || alike.from === alike.to
        ? `${at}: most torque with ${bestTorque.durationDeg} deg, ${bestTorque.value.toFixed(1)} Nm${against(answer)}${edge(bestTorque)}.`
        : `${at}: ${alike.from} to ${alike.to} deg are all within ${100 * ALIKE_SHARE} % of the most torque ` +
            `(${alike.lowest.toFixed(1)} to ${bestTorque.value.toFixed(1)} Nm)${against(answer)}${edge(bestTorque)}.`,
    );
  const late = column.every(({ row }) => middleLead(row) < 0);
  const meets =
    meetsDeg.length > 0
      ? `The middle of the wave meets exhaust closing at about ${meetsDeg.map((value) => value.toFixed(0)).join(', ')} deg`
      : `The middle of the wave comes ${late ? 'after' : 'before'} exhaust closing at every duration`;
  words.push(`${meets}; it lands as wanted ${spanText(landsDeg, 'deg', 'at no duration')}.`);
  return words;
}

/** What the best gains on the drawn duration, to follow it. */
function against({ bestTorque, bestTorqueAsDrawn, drawnDeg }: MapAnswer): string {
  const gain = (bestTorque?.value ?? Number.NaN) - bestTorqueAsDrawn;
  if (!Number.isFinite(gain)) return '';
  return gain < LEAST_TORQUE * bestTorqueAsDrawn
    ? '; as drawn is as good'
    : `, at best ${gain.toFixed(1)} Nm more than at ${drawnDeg} deg`;
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
      `it lands as wanted ${spanText(landsRpm, 'rpm', 'at no speed')}.`,
  ];
}

/** What a step gains or loses, and by what it does so. */
function stepWords(step: Step, { bestTorqueAsDrawn, speedRpm }: MapAnswer): string {
  const by = Math.abs(step.toDeg - step.fromDeg);
  const roof = Math.abs(1000 * step.roof).toFixed(1);
  const way = step.toDeg > step.fromDeg ? ['longer', 'higher'] : ['shorter', 'lower'];
  const torque = !Number.isFinite(step.torque)
    ? 'has no torque to compare'
    : Math.abs(step.torque) < LEAST_TORQUE * bestTorqueAsDrawn
      ? 'leaves the torque as it is'
      : `${step.torque > 0 ? 'gains' : 'loses'} ${Math.abs(step.torque).toFixed(1)} Nm`;
  const parts: string[] = [];
  const add = (value: number, digits: number, text: (size: string, up: boolean) => string): void => {
    const size = Math.abs(value).toFixed(digits);
    if (Number.isFinite(value) && Number(size) !== 0) parts.push(text(size, value > 0));
  };
  add(
    step.leadDeg,
    1,
    (size, up) => `the wave's middle lies ${size} deg ${up ? 'further before' : 'nearer to'} exhaust closing`,
  );
  add(100 * step.packed, 1, (size, up) => `${size} % ${up ? 'more' : 'less'} of the charge is packed back`);
  add(
    step.openingBar,
    2,
    (size, up) => `the cylinder stands ${size} bar ${up ? 'higher' : 'lower'} as the transfers open`,
  );
  if (Math.abs(step.echoGain) >= LEAST_GAIN)
    add(step.echoGain, 2, (size, up) => `the echo gain ${up ? 'rises' : 'falls'} by ${size}`);
  const how = parts.length === 0 ? '' : `: ${parts.join(', ')}`;
  return `At ${speedRpm} rpm, ${by} deg ${way[0]} (${step.fromDeg} to ${step.toDeg}, roofs ${roof} mm ${way[1]}) ${torque}${how}.`;
}

/** Where the echo is strongest, as found. */
export function echoWords({ echo, speedRpm }: MapAnswer): string {
  if (echo === null) return 'The echo could not be read.';
  const { most, least, overEdges } = echo;
  const gain = `Echo gain (the settled outgoing pulse over that of a first cycle into a quiet pipe) at ${speedRpm} rpm`;
  if (most.value - least.value < LEAST_GAIN)
    return `${gain}: ${most.value.toFixed(2)} at every duration, so it chooses none.`;
  const near = Math.abs(most.durationDeg - RESONANT_DEG) <= NEAR_DEG;
  const verdict = most.atEdge
    ? `That is the edge of the map: no peak near ${RESONANT_DEG} deg here`
    : overEdges < LEAST_GAIN
      ? `The edge of the map has as much: no distinct peak, near ${RESONANT_DEG} deg or elsewhere`
      : near
        ? `That is a peak near ${RESONANT_DEG} deg, as common practice has it`
        : `That is a peak, but not near the ${RESONANT_DEG} deg of common practice`;
  return (
    `${gain} is largest with ${most.durationDeg} deg (${most.value.toFixed(2)}), smallest with ` +
    `${least.durationDeg} deg (${least.value.toFixed(2)}). ${verdict}.`
  );
}

const edge = ({ atEdge }: Extreme): string => (atEdge ? ' (edge of the map; the best may lie beyond)' : '');

function spanText(span: Span | null, unit: string, none: string): string {
  if (span === null) return none;
  return span.from === span.to ? `at ${span.from} ${unit}` : `from ${span.from} to ${span.to} ${unit}`;
}

function columnsOf({ drawnDeg }: MapAnswer): readonly Column<MapPoint>[] {
  return [
    {
      header: 'Duration',
      unit: 'deg',
      text: (p) => `${p.durationDeg === drawnDeg ? '*' : ''}${p.durationDeg}`,
    },
    { header: 'peak', unit: 'deg', optional: true, text: (p) => deg(p.row.plugback_peak_deg) },
    { header: 'lead', unit: 'deg', text: (p) => deg(p.row.plugback_lead_deg) },
    { header: 'middle', unit: 'deg', text: (p) => deg(p.row.plugback_centroid_deg) },
    { header: 'before EC', unit: '%', text: (p) => (100 * p.row.plugback_share_before_closing).toFixed(0) },
    { header: 'packed', unit: '%', text: (p) => (100 * p.row.packed_mass_ratio).toFixed(1) },
    { header: 'cyl. TO', unit: 'bar', text: (p) => p.row.transfer_opening_cylinder_bar.toFixed(2) },
    { header: 'echo', unit: '-', optional: true, text: (p) => p.row.echo_gain.toFixed(2) },
    { header: 'torque', unit: 'Nm', text: (p) => p.row.torque_nm.toFixed(2) },
    { header: '', align: 'left', text: (p) => (p.row.settled ? '' : 'not settled') },
  ];
}

function failures(result: MapResult): string {
  return result.failures
    .map((f) => `${f.speedRpm} rpm at ${f.durationDeg} deg failed: ${plainText(f.reason)}\n`)
    .join('');
}
