/**
 * Engines that alternate. Where the gas that one cycle leaves behind decides what the next one does, the answer of a cycle can
 * repeat only every second one, or every third, fourth and so on: x(k) = x(k - p), while x(k) differs from x(k - 1). Such an engine
 * has settled, and its mean over whole periods is as firm as that of a quiet one; a mean over any other number of cycles is
 * not.
 *
 * Asked for: over two stretches of whole periods every cycle is like the one a period before, by a share of the mean and by one of
 * the spread (a slow swing is like itself a few cycles before, too), and the means of the two stretches agree.
 */

import { type CycleSummary, driftOf, meanOf } from '../read/window.ts';

/** The longest repetition looked for [cycles], and the least length of a stretch. */
const LONGEST = 8;
const STRETCH = 6;
/** Differences over a period: of torque and trapped mass as shares of mean and spread, of the wave's middle [deg]. */
const ALIKE = { ofMean: 0.004, ofSpread: 0.1, plugBackDeg: 0.3 } as const;
/** Between the means of two stretches: torque and trapped mass as shares, temperature [K a cycle]; energy gained, wall [K]. */
const MEANS = { share: 0.001, temperature: 0.4, drift: 0.003, wall: 3 } as const;

export interface Alternation {
  /** Cycles after which all repeats. */
  readonly period: number;
  /** The last cycles, a whole number of periods. */
  readonly window: readonly CycleSummary[];
}

/** The shortest period by which the last of some cycles repeat; null: there is none. */
export function alternationOf(cycles: readonly CycleSummary[]): Alternation | null {
  for (let period = 2; period <= LONGEST; period++) {
    const stretch = period * Math.ceil(STRETCH / period);
    if (cycles.length < 2 * stretch) return null;
    const window = cycles.slice(-2 * stretch);
    if (repeats(window, period) && agree(window.slice(0, stretch), window.slice(stretch)))
      return { period, window };
  }
  return null;
}

function repeats(window: readonly CycleSummary[], period: number): boolean {
  const alike = (value: (s: CycleSummary) => number): boolean => {
    const values = window.map(value);
    const spread = Math.max(...values) - Math.min(...values);
    const most = Math.min(ALIKE.ofMean * Math.abs(meanOf(values)), ALIKE.ofSpread * spread);
    return values.every((x, k) => k < period || Math.abs(x - values[k - period]!) <= most);
  };
  return (
    alike((s) => s.reading.output.torque) &&
    alike((s) => s.book.trapped) &&
    window.every((s, k) => k < period || sameMiddle(s, window[k - period]!))
  );
}

function sameMiddle(a: CycleSummary, b: CycleSummary): boolean {
  const [x, y] = [a.reading.plugBack.centroidDeg, b.reading.plugBack.centroidDeg];
  return x === null || y === null ? x === y : Math.abs(x - y) < ALIKE.plugBackDeg;
}

function agree(before: readonly CycleSummary[], after: readonly CycleSummary[]): boolean {
  const both = [...before, ...after];
  const change = (value: (s: CycleSummary) => number): number =>
    Math.abs(meanOf(after.map(value)) - meanOf(before.map(value)));
  const share = (value: (s: CycleSummary) => number): number =>
    change(value) / Math.abs(meanOf(both.map(value)));
  return (
    share((s) => s.reading.output.torque) < MEANS.share &&
    share((s) => s.book.trapped) < MEANS.share &&
    change((s) => s.pipeTemperature) < MEANS.temperature * after.length &&
    driftOf(both) < MEANS.drift &&
    Math.max(...both.map((s) => s.wallMiss)) < MEANS.wall
  );
}
