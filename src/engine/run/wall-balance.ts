/**
 * Finds the pipe's wall temperature from the cycle just recorded, where the case asks for it: each cell's wall moves to the
 * balance of gas-side and outside heat. A real wall takes minutes; here it follows at once, and only the end matters.
 */

import type { EngineNetwork } from '../build.ts';
import { balancedWall } from '../parts/wall.ts';
import type { CycleRecorder } from '../read/recorder.ts';

/** Share of the way to the balance that a cycle moves the wall: full steps can swing with the gas. */
const RELAXATION = 0.7;

/**
 * Moves the walls; returns how far they were from their balance, taken together [K]: a single cell's heat, sampled every few
 * steps, is some kelvin off in one cycle and as far the other way in the next. The passage is cooled with the cylinder.
 */
export function balanceWalls(engine: EngineNetwork, recorder: CycleRecorder): number {
  const { wall } = engine.subject.pipe;
  if (wall.by !== 'balance') return 0;
  const flange = engine.subject.engine.passage.length;
  let misses = 0;
  let cells = 0;
  const turn = 60 / engine.rpm;
  const outside = {
    coefficient: wall.outsideCoefficient,
    emissivity: wall.emissivity,
    ambient: engine.subject.engine.ambient.temperature,
  };
  let k = 0;
  for (const { duct } of engine.exhaust.pieces) {
    const walls = duct.wallTemperature;
    for (let i = 0; i < walls.length; i++, k++) {
      const heat = recorder.heatTime[k]!;
      if (!(heat > 0) || recorder.positions[k]! < flange) continue;
      const gas = recorder.heatTemperature[k]! / heat;
      const balanced = balancedWall(heat / turn, gas, outside);
      const miss = balanced - walls[i]!;
      misses += miss;
      cells++;
      walls[i] = walls[i]! + RELAXATION * miss;
    }
  }
  return cells > 0 ? Math.abs(misses / cells) : 0;
}
