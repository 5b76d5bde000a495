/** Advice in words. Every number of it was computed; where nothing is advised, it is said why. */

import type { Advice, DimensionChange, NoAdvice, Purpose } from '../../src/findings/answers/advice.ts';
import { EDGE_STEP } from '../../src/findings/band.ts';
import { fixed, newtonMetres, rpm, speed, THIN } from '../theme/numbers.ts';

export const purposeLabel: Readonly<Record<Purpose, string>> = {
  target: 'For the target',
  lower: 'For a lower band',
  higher: 'For a higher band',
  output: 'For more power',
};

const mm = (metres: number): string => `${Number((1000 * metres).toFixed(1))}${THIN}mm`;

/** `header 35 mm longer (245 mm)`. */
function changeText({ name, of, from, to }: DimensionChange): string {
  const by = mm(Math.abs(to - from));
  if (of === 'roof') return `${name} ${by} ${to > 0 ? 'higher, the head kept' : 'lower, the head kept'}`;
  const [more, less] = of === 'length' ? ['longer', 'shorter'] : ['wider', 'narrower'];
  return `${name} ${by} ${to > from ? more : less} (${mm(to)})`;
}

const listed = (things: readonly string[]): string => things.join(', ').replace(/, ([^,]*)$/, ' and $1');

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const about = (value: number): string => speed(EDGE_STEP * Math.round(value / EDGE_STEP));

function landsText({ promises: { lands_from_rpm: from, lands_to_rpm: to } }: Advice): string {
  if (from !== null && to !== null)
    return `; the wave lands from about ${about(from)} to about ${about(to)}${THIN}rpm`;
  if (from !== null) return `; the wave lands from about ${about(from)}${THIN}rpm`;
  return to === null ? '' : `; the wave lands up to about ${about(to)}${THIN}rpm`;
}

function wasText({ now: { lands } }: Advice): string {
  return lands === null ? '' : `, now from about ${about(lands.from)} to about ${about(lands.to)}${THIN}rpm`;
}

function numbers(advice: Advice): string {
  const { promises, now, cost, cell, edgeCell } = advice;
  const torque = `${newtonMetres(promises.torque_nm)} at ${rpm(promises.at_rpm)}, now ${fixed(now.torque_nm, 1)}`;
  const lands = landsText(advice);
  const loses = cost === null ? '' : ` It costs ${newtonMetres(-cost.torque_nm)} at ${rpm(cost.at_rpm)}.`;
  return `${torque}${lands}${lands === '' ? '' : wasText(advice)}.${loses} Computed on cells of ${mm(cell)}${edgeCell === cell ? '' : `, the edges on ${mm(edgeCell)}`}.`;
}

const changesText = ({ changes }: Advice): string => capital(changes.map(changeText).join(', '));

/** A narrower stinger heats piston and gas: said where it is advised. */
const caution = ({ changes }: Advice): string =>
  changes.some(({ name, from, to }) => name === 'stinger' && to < from)
    ? ' A narrower stinger runs hotter: start rich and watch the piston.'
    : '';

export const adviceText = (advice: Advice): string =>
  `${changesText(advice)}: ${numbers(advice)}${caution(advice)}`;

export function unadvisedText({ for: purpose, why, tried, runs, things }: NoAdvice): string {
  const it = { target: 'torque there', output: 'power', lower: 'it', higher: 'it' }[purpose];
  switch (why) {
    case 'best already':
      return `None of ${runs} changes of ${listed(things)} that were computed gains more than 1.5${THIN}%: ${it} is at its best already.`;
    case 'loses':
      return tried === null
        ? 'The change that was computed loses.'
        : `Not by length: ${tried.changes.map(changeText).join(', ')} would give ${numbers(tried)}`;
    case 'open':
      return `The computed speeds end before the band does: widen --rpm first.`;
    case 'no change':
      return 'The drawing has no length that could be changed for it.';
    case 'did not settle':
      return 'The change that was tried did not settle.';
    case 'no budget':
      return 'Not computed, for advice takes no more than a third of the time of its sweep. Finer cells or more speeds allow more.';
  }
}

/** What is said alike of several purposes: "For the target and a lower band: …" */
export function unadvisedTogether(alike: readonly NoAdvice[]): string {
  const [first] = alike;
  if (first === undefined) return '';
  const text =
    first.why === 'did not settle' && alike.length > 1
      ? 'The changes that were tried did not settle.'
      : unadvisedText(first);
  const purposes = listed(alike.map((one) => purposeLabel[one.for].replace('For ', '')));
  return `For ${purposes}: ${text.charAt(0).toLowerCase()}${text.slice(1)}`;
}
