/**
 * Cycles until the engine has settled. A small change between two cycles does not mean settled: the pipe's gas takes some
 * ten to twenty cycles to travel down it, and near the edge of the power band an engine may alternate. So the last
 * `WINDOW` cycles together are judged: spread of torque, trapped mass and plug-back peak, trend of the pipe's mean gas
 * temperature, and the energy the network still gains. What is reported is the mean over that window, with the spread.
 */

import type { EngineNetwork } from './build.ts';
import { type CycleBook, marchCycle } from './cycle.ts';
import { type CycleReading, readCycle } from './read-cycle.ts';
import { CycleRecorder } from './recorder.ts';
import { balanceWalls } from './wall-balance.ts';

/** Cycles judged together. */
export const WINDOW = 6;
/** Limits of a settled window: relative spreads, degrees, kelvin a cycle, share of the heat released. */
export const SETTLED = {
  torque: 0.004,
  trapped: 0.004,
  plugBackDeg: 0.4,
  temperature: 0.4,
  drift: 0.004,
} as const;

export interface CycleSummary {
  readonly book: CycleBook;
  readonly reading: CycleReading;
  /** Mean gas temperature of the pipe over the cycle [K]. */
  readonly pipeTemperature: number;
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
  readonly plugBackDeg: number;
  readonly temperaturePerCycle: number;
  readonly drift: number;
}

export interface SettleLimits {
  readonly maxCycles: number;
  readonly minCycles: number;
}

/** Runs cycles from the engine's present state. @throws MarchFailure */
export function settle(engine: EngineNetwork, limits: SettleLimits): Settled {
  const recorder = new CycleRecorder(engine);
  const window: CycleSummary[] = [];
  let cycles = 0;
  let spread = spreadOf(window);
  while (cycles < limits.maxCycles) {
    const book = marchCycle(engine, recorder);
    cycles++;
    const reading = readCycle(engine, recorder, book);
    window.push({ book, reading, pipeTemperature: pipeTemperature(engine, recorder) });
    if (window.length > WINDOW) window.shift();
    spread = spreadOf(window);
    if (cycles >= limits.minCycles && window.length === WINDOW && isSettled(spread))
      return { settled: true, cycles, window, recorder, spread };
    if (cycles < limits.maxCycles) balanceWalls(engine, recorder);
  }
  return { settled: false, cycles, window, recorder, spread };
}

function isSettled(spread: Spread): boolean {
  return (
    spread.torquePercent < 100 * SETTLED.torque &&
    spread.trappedPercent < 100 * SETTLED.trapped &&
    // A plug-back that cannot be found in some cycle has no spread to judge.
    !(spread.plugBackDeg >= SETTLED.plugBackDeg) &&
    spread.temperaturePerCycle < SETTLED.temperature &&
    spread.drift < SETTLED.drift
  );
}

function spreadOf(window: readonly CycleSummary[]): Spread {
  const range = (value: (s: CycleSummary) => number): number => {
    const values = window.map(value);
    return Math.max(...values) - Math.min(...values);
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
    plugBackDeg: range((s) => s.reading.plugBack.peakDeg),
    temperaturePerCycle: Math.abs(top / bottom),
    drift: Math.abs(mean((s) => s.book.drift)),
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
