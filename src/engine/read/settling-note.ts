/** How a speed settled, or what it did instead, in words: alternates, varies about a mean, creeps, jumps, wanders. */

import { errorOfMean } from './mean-error.ts';
import { meanOf, type Settled } from './window.ts';

/** A window whose halves differ by this share of its spread goes one way: straight it would be a half [-]. */
const CREEPS = 0.4;
/** Two states: the gap between them as a share of the spread, and the cycles that each lasts at a time on the mean. */
const GAP = 0.4;
const STAYS = 3;

export function settlingNotes({ verdict, period, cycles, window, spread }: Settled): string[] {
  if (verdict === 'quiet') return [];
  const torque = window.map(({ reading }) => reading.output.torque);
  if (period !== null) return [alternates(torque, period)];
  if (verdict === 'steady')
    return [
      `Cycles go on varying about a steady mean: torque by ${spread.torquePercent.toFixed(1)} % over ${window.length} cycles, ` +
        `its mean known to ${(100 * errorOfMean(torque)).toFixed(1)} %. Pictures show the last of them.`,
    ];
  const creep = creepPercent(torque);
  if (Math.abs(creep) > CREEPS * spread.torquePercent)
    return [
      `Not settled after ${cycles} cycles: torque creeps, by ${creep.toFixed(2)} % in ` +
        `${Math.floor(window.length / 2)} cycles at the end. More cycles (run.maxCycles) would end it.`,
    ];
  const states = statesOf(torque);
  if (states !== null)
    return [
      `Not settled after ${cycles} cycles: torque jumps between two states, about ${states[0].toFixed(1)} and ` +
        `${states[1].toFixed(1)} Nm. The row is the mean of the last ${window.length} cycles.`,
    ];
  return [
    `Not settled after ${cycles} cycles: over the last ${window.length} the torque still varied by ` +
      `${spread.torquePercent.toFixed(2)} %, ${wandering(spread)} and the pipe's ` +
      `temperature moved ${spread.temperaturePerCycle.toFixed(2)} K a cycle.`,
  ];
}

function alternates(torque: readonly number[], period: number): string {
  const states = Array.from({ length: period }, (_, k) =>
    meanOf(torque.filter((_torque, cycle) => cycle % period === k)),
  );
  const [least, most] = [Math.min(...states).toFixed(2), Math.max(...states).toFixed(2)];
  const every = period === 2 ? 'every second cycle' : `every ${period} cycles`;
  return (
    `The engine alternates: it repeats itself ${every}, torque from ${least} to ${most} Nm. ` +
    `The row is the mean of ${torque.length} cycles; pictures show the last of them.`
  );
}

/** By how much the second half of a series is above the first [%]. */
function creepPercent(torque: readonly number[]): number {
  const half = Math.floor(torque.length / 2);
  const [before, after] = [meanOf(torque.slice(0, half)), meanOf(torque.slice(-half))];
  return (100 * (after - before)) / Math.abs(before);
}

/** Two levels that a series keeps to in turn, the lower first; null: it does not. */
export function statesOf(series: readonly number[]): readonly [number, number] | null {
  const sorted = [...series].sort((a, b) => a - b);
  const gaps = sorted.slice(1).map((value, k) => value - sorted[k]!);
  const widest = Math.max(...gaps);
  const spread = sorted.at(-1)! - sorted[0]!;
  if (!(widest > GAP * spread)) return null;
  const limit = sorted[gaps.indexOf(widest)]! + widest / 2;
  const high = series.map((value) => value > limit);
  const changes = high.filter((one, k) => k > 0 && one !== high[k - 1]).length;
  if (changes === 0 || series.length / (changes + 1) < STAYS) return null;
  return [meanOf(series.filter((_, k) => high[k] !== true)), meanOf(series.filter((_, k) => high[k]))];
}

const wandering = ({ plugBackDeg }: Settled['spread']): string =>
  plugBackDeg === null
    ? 'the plug-back was not found in every cycle'
    : `the plug-back by ${plugBackDeg.toFixed(1)} deg`;
