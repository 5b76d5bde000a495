/** What the board says in sentences: how a draft differs from the base, and which answer is shown. */

import type { Difference } from '../../../src/board/difference.ts';
import { EDGE_STEP, type SpeedSpan } from '../../../src/findings/band.ts';
import { fixed, isNumber, rpm, signed, speed, THIN } from '../../theme/numbers.ts';
import type { Progress } from './pursuit-listener.ts';

/** An edge of a band as it can be claimed [rpm]. */
export const edgeOf = (value: number): number => EDGE_STEP * Math.round(value / EDGE_STEP);

/** "+1.2 Nm and +1.4 kW at 10 500 rpm, band 250 rpm lower." Of the band nothing is said until all speeds stand. */
export function differenceWords(
  { rpm: at, torque, power, lead, before, now }: Difference,
  whole = true,
): string {
  const output = [
    ...(isNumber(torque) ? [`${signed(torque, 1)}${THIN}Nm`] : []),
    ...(isNumber(power) ? [`${signed(power, 1)}${THIN}kW`] : []),
  ];
  const wave =
    isNumber(lead) && Math.abs(lead) >= 0.5
      ? [`the wave ${fixed(Math.abs(lead), 0)}° ${lead > 0 ? 'earlier' : 'later'}`]
      : [];
  const first = output.length === 0 ? `No answer at ${rpm(at)}` : `${output.join(' and ')} at ${rpm(at)}`;
  return `${[first, ...wave, ...(whole ? bandWords(before, now) : [])].join(', ')}.`;
}

function bandWords(before: SpeedSpan | null, now: SpeedSpan | null): readonly string[] {
  if (before === null && now === null) return [];
  if (now === null) return ['no speed at which the wave lands with its torque held'];
  const span = `${speed(edgeOf(now.from))} to ${rpm(edgeOf(now.to))}`;
  if (before === null) return [`band now from ${span}`];
  const [low, high] = [now.from - before.from, now.to - before.to];
  const moved = edgeOf((low + high) / 2);
  const wider = edgeOf(high - low);
  if (moved === 0 && wider === 0) return ['band where it was'];
  const parts = [
    ...(moved === 0 ? [] : [`${speed(Math.abs(moved))} rpm ${moved > 0 ? 'higher' : 'lower'}`]),
    ...(wider === 0 ? [] : [`${speed(Math.abs(wider))} rpm ${wider > 0 ? 'wider' : 'narrower'}`]),
  ];
  return [`band ${parts.join(' and ')} (${span})`];
}

export interface Shown {
  readonly progress: Progress;
  readonly cell: number;
  readonly fresh: number;
  readonly of: number;
  readonly refining: { readonly cell: number; readonly done: number; readonly of: number } | null;
  readonly failures: number;
}

const mm = (metres: number): string => `${Number((1000 * metres).toPrecision(4))}${THIN}mm`;

/** Which answer is shown, on which cells, and what is under way. */
export function shownWords({ progress, cell, fresh, of, refining, failures }: Shown): string {
  const failed = failures === 0 ? '' : `, ${failures} failed`;
  const under =
    refining === null ? '' : `; ${mm(refining.cell)} under way, ${refining.done} of ${refining.of} speeds`;
  if (progress === 'computing')
    return `Preview on ${mm(cell)} cells: ${fresh} of ${of} speeds are of this draft${failed}`;
  return progress === 'preview'
    ? `${under === '' || fresh === of ? 'Preview' : 'Shown'} on ${mm(cell)} cells${failed}${under}`
    : `Refined, ${mm(cell)} cells as a sweep computes them${failed}`;
}
