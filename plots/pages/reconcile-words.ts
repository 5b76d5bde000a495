/** A reconciliation in words, for the page and for the terminal. */

import type { GroupFit, ReconcileAnswer, ReconciledInput } from '../../src/findings/answers/reconcile.ts';
import { fixed, percent, signed, speed, THIN } from '../theme/numbers.ts';
import type { Finding } from './parts.ts';

/** Paths that are named in a sentence, at most. */
const NAMED = 5;

/** A path as it is read: without the room that it stands in. */
export const shortPath = (path: string): string => path.replace(/^(engine|pipe)\./, '');

const listed = (paths: readonly string[]): string => {
  const shown = paths.slice(0, NAMED).map(shortPath).join(', ');
  return paths.length > NAMED ? `${shown} and ${paths.length - NAMED} more` : shown;
};

export function reconcileHeadline({ verdict, fits }: ReconcileAnswer): string {
  const torque = fits.find(({ kind }) => kind === 'torque') ?? fits[0];
  const errors =
    torque === undefined
      ? ''
      : `, ${fixed(torque.before, 1)} measuring errors off before, ${fixed(torque.after, 1)} after`;
  if (verdict === 'not explained')
    return 'No inputs within their ranges explain what was measured: do not build on the reconciled engine';
  if (verdict === 'partly') return `Explained in part${errors}: see where it is not`;
  return `Explained by inputs within their ranges${errors}`;
}

/** Where a group is not explained; empty: it is. */
export function unexplainedText({ kind, name, unexplained, of }: GroupFit): string {
  if (unexplained.length === 0) return '';
  if (kind === 'pressure')
    return `${name}: ${unexplained.length} of ${of} angles lie beyond what the inputs and the errors allow.`;
  const places =
    kind === 'torque'
      ? `${unexplained.map((rpm) => speed(rpm)).join(', ')}${THIN}rpm`
      : unexplained.map((at) => `${Math.round(1000 * at)}${THIN}mm`).join(', ');
  return `${name}: not explained within the ranges at ${places}.`;
}

const NOT_EXPLAINED =
  'Look for what the model does not know before any input is bent: the factor of the dynamometer, another unit or correction, another engine or pipe than the case’s, an ignition that was moved, a leak.';

/** By how many of its ranges an input moved, with its sign. */
export const movedText = ({ moved }: ReconciledInput): string => signed(moved, 2);

export function reconcileLines(answer: ReconcileAnswer): readonly Finding[] {
  const { inputs, told, untold, tied, fits, verdict, next } = answer;
  const byPath = new Map(inputs.map((one) => [one.path, one]));
  const moved = told
    .slice(0, NAMED)
    .map(
      (path) =>
        `${shortPath(path)} (${movedText(byPath.get(path)!)} of its range, which is ${percent(byPath.get(path)!.narrowed)} of what it was)`,
    );
  const lines: Finding[] = [];
  const missed = fits.map(unexplainedText).filter((text) => text !== '');
  if (missed.length > 0) lines.push({ label: 'Not explained', text: missed.join(' '), way: true });
  if (verdict === 'not explained') lines.push({ label: 'What to do', text: NOT_EXPLAINED, way: true });
  lines.push({
    label: 'What moved',
    text:
      moved.length === 0
        ? 'No input moved or narrowed by more than chance.'
        : `${moved.join('; ')}${told.length > NAMED ? `; ${told.length - NAMED} more in the table` : ''}.`,
  });
  if (untold.length > 0)
    lines.push({
      label: 'What the data cannot tell',
      text: `${untold.length} of ${inputs.length} inputs are as uncertain as before: ${listed(untold)}.`,
    });
  const [pair] = tied;
  if (pair !== undefined) {
    const both =
      pair.correlation < 0
        ? 'more of the one with less of the other'
        : 'more of the one with more of the other';
    const others = tied.length > 1 ? ` ${tied.length - 1} more pairs are like it.` : '';
    lines.push({
      label: 'Known only together',
      text: `${shortPath(pair.paths[0])} and ${shortPath(pair.paths[1])}: ${both} explains the data as well (correlation ${fixed(pair.correlation, 2)}).${others}`,
    });
  }
  lines.push({ label: 'What to measure next', text: nextText(next) });
  return lines;
}

function nextText(next: ReconcileAnswer['next']): string {
  if (next.length === 0)
    return 'No single input carries much of what is left uncertain of torque; another pipe, or a pressure trace at another place, tells more.';
  const named = next.map(({ path, share }) => `${shortPath(path)} (${percent(share)} of what is left)`);
  return `${named.join(', ')}. What can be measured by itself, such as a wall’s temperature, an ignition angle or a volume, is best stated in the case with its error.`;
}
