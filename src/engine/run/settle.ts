/**
 * Cycles until the engine has settled. A small change between two cycles does not mean settled: the pipe's gas takes some
 * ten to twenty cycles to travel down it, and near the edge of the power band an engine alternates for ever. So the last
 * cycles are judged together. Settled is
 *   - quiet: torque, trapped mass and plug-back hardly vary over a short window, the pipe's temperature has no trend, and no
 *     large swing lies behind (`settle-limits.ts`), or
 *   - steady: they go on varying, within `STEADY.torque`, but their means over a long window and the one before agree.
 * In both the energy that the network still gains must be small. What is reported is the mean over that window, with the
 * spread. The plug-back is judged by its centroid: the peak of a flat top jumps about where the wave itself does not.
 */

import type { EngineNetwork } from '../build.ts';
import { readCycle } from '../read/read-cycle.ts';
import { CycleRecorder } from '../read/recorder.ts';
import {
  type CycleSummary,
  meanOf,
  pipeTemperature,
  type Settled,
  type Spread,
  spreadOf,
} from '../read/window.ts';
import { marchCycle } from './cycle.ts';
import type { QuietLimits, Strictness, SwingLimits } from './settle-limits.ts';
import { balanceWalls } from './wall-balance.ts';

/** Cycles judged together where not all is quiet. */
const LONG_WINDOW = 12;
/** Limits of a steady engine: spread of torque, then differences of the means of two windows. */
const STEADY = {
  torque: 0.1,
  means: 0.004,
  plugBackDeg: 0.5,
  temperature: 3,
  drift: 0.003,
  wall: 3,
} as const;

/** Runs at most so many cycles from the engine's present state. @throws MarchFailure */
export function settle(engine: EngineNetwork, strictness: Strictness, maxCycles: number): Settled {
  const recorder = new CycleRecorder(engine);
  const recent: CycleSummary[] = [];
  let cycles = 0;
  while (cycles < maxCycles) {
    const book = marchCycle(engine, recorder);
    cycles++;
    const reading = readCycle(engine, recorder, book);
    const wallMiss = balanceWalls(engine, recorder);
    recent.push({ book, reading, pipeTemperature: pipeTemperature(engine, recorder), wallMiss });
    if (recent.length > 2 * LONG_WINDOW) recent.shift();
    if (cycles >= Math.max(strictness.minCycles, strictness.window)) {
      const quiet = recent.slice(-strictness.window);
      const spread = spreadOf(quiet);
      if (isQuiet(spread, strictness.quiet) && isCalm(recent, cycles, strictness.swing))
        return { verdict: 'quiet', cycles, window: quiet, recorder, spread };
    }
    if (recent.length === 2 * LONG_WINDOW) {
      const window = recent.slice(LONG_WINDOW);
      const spread = spreadOf(window);
      if (isSteady(recent.slice(0, LONG_WINDOW), window, spread))
        return { verdict: 'steady', cycles, window, recorder, spread };
    }
  }
  const window = recent.slice(-LONG_WINDOW);
  return { verdict: 'moving', cycles, window, recorder, spread: spreadOf(window) };
}

function isQuiet(spread: Spread, quiet: QuietLimits): boolean {
  return (
    spread.torquePercent < 100 * quiet.torque &&
    spread.trappedPercent < 100 * quiet.trapped &&
    // A plug-back that cannot be found in some cycle has no spread to judge.
    (spread.centroidDeg ?? 0) < quiet.plugBackDeg &&
    spread.temperaturePerCycle < quiet.temperature &&
    spread.drift < quiet.drift &&
    spread.wall < quiet.wall
  );
}

/** No swing large enough for the next one to matter lies behind. */
function isCalm(recent: readonly CycleSummary[], cycles: number, swing: SwingLimits | null): boolean {
  if (swing === null) return true;
  const count = Math.min(swing.cycles, cycles - swing.startCycles);
  if (count < 2) return true;
  const spread = spreadOf(recent.slice(-count));
  return spread.torquePercent < 100 * swing.torque && (spread.centroidDeg ?? 0) < swing.plugBackDeg;
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
