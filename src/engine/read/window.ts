/** A window of cycles: what each of them shows, how they vary among themselves, and how a run to a settled state ended. */

import { square } from '../../../solver/index.ts';
import type { EngineNetwork } from '../build.ts';
import type { CycleBook } from './cycle-book.ts';
import type { CycleReading } from './read-cycle.ts';
import type { CycleRecorder } from './recorder.ts';

export interface CycleSummary {
  readonly book: CycleBook;
  readonly reading: CycleReading;
  /** Mean gas temperature of the pipe over the cycle [K]. */
  readonly pipeTemperature: number;
  /** How far the walls are from their balance; 0 where they are given [K]. */
  readonly wallMiss: number;
}

/**
 * How a run ended: all quiet, repeating every few cycles, varying about a steady mean, or still on the move at the last cycle
 * that was allowed.
 */
export type Verdict = 'quiet' | 'alternating' | 'steady' | 'moving';

export interface Settled {
  readonly verdict: Verdict;
  /** Cycles after which an alternating engine repeats itself; null: it does not. */
  readonly period: number | null;
  readonly cycles: number;
  /** The last cycles, oldest first. */
  readonly window: readonly CycleSummary[];
  readonly recorder: CycleRecorder;
  readonly spread: Spread;
}

export interface Spread {
  readonly torquePercent: number;
  readonly trappedPercent: number;
  /** Null: no plug-back was found in some cycle. */
  readonly plugBackDeg: number | null;
  readonly centroidDeg: number | null;
  readonly temperaturePerCycle: number;
  readonly drift: number;
  /** Largest distance of the walls from their balance [K]. */
  readonly wall: number;
}

export function spreadOf(window: readonly CycleSummary[]): Spread {
  const range = (value: (s: CycleSummary) => number): number => {
    const values = window.map(value);
    return Math.max(...values) - Math.min(...values);
  };
  const foundRange = (value: (s: CycleSummary) => number | null): number | null => {
    const found = window.flatMap((s) => value(s) ?? []);
    return found.length < window.length ? null : Math.max(...found) - Math.min(...found);
  };
  const mean = (value: (s: CycleSummary) => number): number => meanOf(window.map(value));
  const percent = (value: (s: CycleSummary) => number): number =>
    (100 * range(value)) / Math.max(Math.abs(mean(value)), 1e-12);
  const n = window.length;
  // Slope of the least-squares line through the window's temperatures.
  const middle = (n - 1) / 2;
  let top = 0;
  let bottom = 0;
  window.forEach((s, k) => {
    top += (k - middle) * s.pipeTemperature;
    bottom += square(k - middle);
  });
  return {
    torquePercent: percent((s) => s.reading.output.torque),
    trappedPercent: percent((s) => s.book.trapped),
    plugBackDeg: foundRange((s) => s.reading.plugBack.peakDeg),
    centroidDeg: foundRange((s) => s.reading.plugBack.centroidDeg),
    temperaturePerCycle: Math.abs(top / bottom),
    drift: driftOf(window),
    wall: Math.max(...window.map((s) => s.wallMiss)),
  };
}

/**
 * Energy that the network gains over some cycles, over the heat released in them [-]. Not the mean of the cycles' own shares: where
 * an engine alternates, what a strong cycle gains is a small share of its heat, and what a weak one loses a large one.
 */
export function driftOf(window: readonly CycleSummary[]): number {
  const released = window.reduce((sum, { book }) => sum + book.released, 0);
  const gained = window.reduce((sum, { book }) => sum + book.drift * book.released, 0);
  return Math.abs(gained) / Math.max(released, 1e-9);
}

/** Mean of finite values; NaN if there is none. */
export function meanOf(values: readonly number[]): number {
  const finite = values.filter(Number.isFinite);
  return finite.length > 0 ? finite.reduce((a, b) => a + b, 0) / finite.length : Number.NaN;
}

/** Mean gas temperature over the pipe's length and the cycle [K]. */
export function pipeTemperature(engine: EngineNetwork, recorder: CycleRecorder): number {
  const turn = 60 / engine.rpm;
  return recorder.temperatureTime.reduce((sum, t) => sum + t, 0) / recorder.temperatureTime.length / turn;
}
