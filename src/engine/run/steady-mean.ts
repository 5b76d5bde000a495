/**
 * Means of cycles that go on varying without order. Steady is a window whose mean torque is known to half a per cent and whose
 * two halves agree.
 */

import { errorOfMean } from '../read/mean-error.ts';
import { type CycleSummary, driftOf, meanOf } from '../read/window.ts';

/** Lengths of window tried, shortest first [cycles]. */
const WINDOWS = [48, 60] as const;
/** More than this is never looked at. */
export const LONGEST_WINDOW = 60;
/** Error of the mean torque, differences of the halves' means, and what the whole still gains. */
const STEADY = {
  error: 0.005,
  means: 0.004,
  plugBackDeg: 0.3,
  temperature: 3,
  drift: 0.003,
  wall: 3,
} as const;

/** The shortest window of the last cycles with a steady mean; null: there is none. */
export function steadyWindow(cycles: readonly CycleSummary[]): readonly CycleSummary[] | null {
  for (const length of WINDOWS) {
    if (cycles.length < length) return null;
    const window = cycles.slice(-length);
    if (isSteady(window)) return window;
  }
  return null;
}

function isSteady(window: readonly CycleSummary[]): boolean {
  const [before, after] = [window.slice(0, window.length / 2), window.slice(window.length / 2)];
  const change = (value: (s: CycleSummary) => number): number =>
    Math.abs(meanOf(after.map(value)) - meanOf(before.map(value)));
  const share = (value: (s: CycleSummary) => number): number =>
    change(value) / Math.abs(meanOf(window.map(value)));
  return (
    share((s) => s.reading.output.torque) < STEADY.means &&
    share((s) => s.book.trapped) < STEADY.means &&
    (centroidChange(before, after) ?? 0) < STEADY.plugBackDeg &&
    change((s) => s.pipeTemperature) < STEADY.temperature &&
    driftOf(window) < STEADY.drift &&
    Math.max(...window.map((s) => s.wallMiss)) < STEADY.wall &&
    errorOfMean(window.map((s) => s.reading.output.torque)) < STEADY.error
  );
}

/** By how much the middle of the plug-back differs between the means of two windows [deg]; null: one has none. */
function centroidChange(before: readonly CycleSummary[], after: readonly CycleSummary[]): number | null {
  const found = (window: readonly CycleSummary[]): number[] =>
    window.flatMap(({ reading }) => reading.plugBack.centroidDeg ?? []);
  const [was, is] = [found(before), found(after)];
  return was.length === 0 || is.length === 0 ? null : Math.abs(meanOf(is) - meanOf(was));
}
