/**
 * Cycles until the engine has settled. A small change between two cycles does not mean settled: the pipe's gas takes some
 * ten to twenty cycles to travel down it, and near the edge of the power band an engine alternates for ever. So the last
 * `WINDOW` cycles are judged together. Settled is
 *   - quiet: torque, trapped mass and plug-back hardly vary over a short window and the pipe's temperature has no trend, or
 *   - steady: they go on varying, within `STEADY.torque`, but their means over a long window and the one before agree.
 * In both the energy that the network still gains must be small. What is reported is the mean over that window, with the
 * spread. The plug-back is judged by its centroid: the peak of a flat top jumps about where the wave itself does not.
 */

import type { EngineNetwork } from '../build.ts';
import type { CycleBook } from '../read/cycle-book.ts';
import { type CycleReading, readCycle } from '../read/read-cycle.ts';
import { CycleRecorder } from '../read/recorder.ts';
import { marchCycle } from './cycle.ts';
import { balanceWalls } from './wall-balance.ts';

/** Cycles judged together where all is quiet, and where it is not. */
export const WINDOW = 6;
export const LONG_WINDOW = 12;
/** Limits of a quiet window: relative spreads, degrees, kelvin a cycle, share of the heat released, kelvin off a wall's balance. */
export const QUIET = {
  torque: 0.003,
  trapped: 0.003,
  plugBackDeg: 0.3,
  temperature: 0.3,
  drift: 0.003,
  wall: 1,
} as const;
/** Limits of a steady engine: spread of torque, then differences of the means of two windows. */
export const STEADY = {
  torque: 0.1,
  means: 0.004,
  plugBackDeg: 0.5,
  temperature: 3,
  drift: 0.003,
  wall: 3,
} as const;

export interface CycleSummary {
  readonly book: CycleBook;
  readonly reading: CycleReading;
  /** Mean gas temperature of the pipe over the cycle [K]. */
  readonly pipeTemperature: number;
  /** How far the walls are from their balance; 0 where they are given [K]. */
  readonly wallMiss: number;
}

export interface Settled {
  readonly settled: boolean;
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

export interface SettleLimits {
  readonly maxCycles: number;
  readonly minCycles: number;
}

/** Runs cycles from the engine's present state. @throws MarchFailure */
export function settle(engine: EngineNetwork, limits: SettleLimits): Settled {
  const recorder = new CycleRecorder(engine);
  const recent: CycleSummary[] = [];
  let cycles = 0;
  while (cycles < limits.maxCycles) {
    const book = marchCycle(engine, recorder);
    cycles++;
    const reading = readCycle(engine, recorder, book);
    const wallMiss = balanceWalls(engine, recorder);
    recent.push({ book, reading, pipeTemperature: pipeTemperature(engine, recorder), wallMiss });
    if (recent.length > 2 * LONG_WINDOW) recent.shift();
    if (cycles >= limits.minCycles && recent.length >= WINDOW) {
      const quiet = recent.slice(-WINDOW);
      const spread = spreadOf(quiet);
      if (isQuiet(spread)) return { settled: true, cycles, window: quiet, recorder, spread };
    }
    if (recent.length === 2 * LONG_WINDOW) {
      const window = recent.slice(LONG_WINDOW);
      const spread = spreadOf(window);
      if (isSteady(recent.slice(0, LONG_WINDOW), window, spread))
        return { settled: true, cycles, window, recorder, spread };
    }
  }
  const window = recent.slice(-LONG_WINDOW);
  return { settled: false, cycles, window, recorder, spread: spreadOf(window) };
}

function isQuiet(spread: Spread): boolean {
  return (
    spread.torquePercent < 100 * QUIET.torque &&
    spread.trappedPercent < 100 * QUIET.trapped &&
    // A plug-back that cannot be found in some cycle has no spread to judge.
    (spread.centroidDeg ?? 0) < QUIET.plugBackDeg &&
    spread.temperaturePerCycle < QUIET.temperature &&
    spread.drift < QUIET.drift &&
    spread.wall < QUIET.wall
  );
}

function isSteady(before: readonly CycleSummary[], after: readonly CycleSummary[], spread: Spread): boolean {
  if (spread.torquePercent > 100 * STEADY.torque) return false;
  const change = (value: (s: CycleSummary) => number): number =>
    Math.abs(meanOf(after.map(value)) - meanOf(before.map(value)));
  const torque = meanOf(after.map((s) => s.reading.output.torque));
  const trapped = meanOf(after.map((s) => s.book.trapped));
  return (
    change((s) => s.reading.output.torque) < STEADY.means * Math.abs(torque) &&
    change((s) => s.book.trapped) < STEADY.means * trapped &&
    (centroidChange(before, after) ?? 0) < STEADY.plugBackDeg &&
    change((s) => s.pipeTemperature) < STEADY.temperature &&
    spread.drift < STEADY.drift &&
    spread.wall < STEADY.wall
  );
}

/** By how much the middle of the plug-back differs between the means of two windows [deg]; null: one has none. */
function centroidChange(before: readonly CycleSummary[], after: readonly CycleSummary[]): number | null {
  const found = (window: readonly CycleSummary[]): number[] =>
    window.flatMap(({ reading }) => reading.plugBack.centroidDeg ?? []);
  const [was, is] = [found(before), found(after)];
  return was.length === 0 || is.length === 0 ? null : Math.abs(meanOf(is) - meanOf(was));
}

function spreadOf(window: readonly CycleSummary[]): Spread {
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
    bottom += (k - middle) ** 2;
  });
  return {
    torquePercent: percent((s) => s.reading.output.torque),
    trappedPercent: percent((s) => s.book.trapped),
    plugBackDeg: foundRange((s) => s.reading.plugBack.peakDeg),
    centroidDeg: foundRange((s) => s.reading.plugBack.centroidDeg),
    temperaturePerCycle: Math.abs(top / bottom),
    drift: Math.abs(mean((s) => s.book.drift)),
    wall: Math.max(...window.map((s) => s.wallMiss)),
  };
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
