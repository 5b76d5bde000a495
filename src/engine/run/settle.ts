/**
 * Cycles until the engine has settled. A small change between two cycles does not mean settled: the pipe's gas takes some
 * ten to twenty cycles to travel down it, and near the edge of the power band an engine alternates for ever. So the last
 * cycles are judged together. Settled is
 *   - quiet: torque, trapped mass and plug-back hardly vary over a short window, the pipe's temperature has no trend, no large
 *     swing lies behind (`settle-limits.ts`) and no long creep ahead (`creep.ts`),
 *   - alternating: they repeat every second cycle, or every few (`alternation.ts`), or
 *   - steady: they vary without order, but their means over a long window are known well enough (`steady-mean.ts`).
 * In all the energy that the network still gains must be small. What is reported is the mean over that window, with the
 * spread. The plug-back is judged by its centroid: the peak of a flat top jumps about where the wave itself does not.
 */

import type { EngineNetwork } from '../build.ts';
import { readCycle } from '../read/read-cycle.ts';
import { CycleRecorder } from '../read/recorder.ts';
import { type CycleSummary, pipeTemperature, type Settled, type Spread, spreadOf } from '../read/window.ts';
import { alternationOf } from './alternation.ts';
import { remainderOf } from './creep.ts';
import { marchCycle } from './cycle.ts';
import {
  type CreepLimits,
  type QuietLimits,
  START_CYCLES,
  type Strictness,
  type SwingLimits,
} from './settle-limits.ts';
import { LONGEST_WINDOW, steadyWindow } from './steady-mean.ts';
import { balanceWalls } from './wall-balance.ts';

/** Cycles that are told of where nothing has settled. */
const LAST = 24;

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
    if (recent.length > LONGEST_WINDOW) recent.shift();
    if (cycles < Math.max(strictness.minCycles, strictness.window)) continue;
    const ended = endOf(recent, cycles, strictness);
    if (ended !== null) return { ...ended, cycles, recorder, spread: spreadOf(ended.window) };
  }
  const window = recent.slice(-LAST);
  return { verdict: 'moving', period: null, cycles, window, recorder, spread: spreadOf(window) };
}

/** How the last cycles have settled; null: they have not. */
function endOf(
  recent: readonly CycleSummary[],
  cycles: number,
  { window: length, quiet: limits, swing, creep }: Strictness,
): Pick<Settled, 'verdict' | 'period' | 'window'> | null {
  const quiet = recent.slice(-length);
  // The first cycles are those of the start.
  const own = recent.slice(Math.max(0, START_CYCLES - (cycles - recent.length)));
  if (isQuiet(spreadOf(quiet), limits) && isCalm(recent, cycles, swing) && isThere(own, creep))
    return { verdict: 'quiet', period: null, window: quiet };
  const alternation = alternationOf(own);
  if (alternation !== null) return { verdict: 'alternating', ...alternation };
  const steady = steadyWindow(own);
  return steady === null ? null : { verdict: 'steady', period: null, window: steady };
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
  const count = Math.min(swing.cycles, cycles - START_CYCLES);
  if (count < 2) return true;
  const spread = spreadOf(recent.slice(-count));
  return spread.torquePercent < 100 * swing.torque && (spread.centroidDeg ?? 0) < swing.plugBackDeg;
}

/** Nothing is on a long way still. */
function isThere(own: readonly CycleSummary[], creep: CreepLimits | null): boolean {
  if (creep === null) return true;
  const { cycles, torque, plugBackDeg } = creep;
  const last = own.slice(-cycles);
  const torques = last.map(({ reading }) => reading.output.torque);
  const middles = last.flatMap(({ reading }) => reading.plugBack.centroidDeg ?? []);
  return (
    Math.abs(remainderOf(torques)) < torque * Math.abs(torques.at(-1)!) &&
    (middles.length < last.length || Math.abs(remainderOf(middles)) < plugBackDeg)
  );
}
