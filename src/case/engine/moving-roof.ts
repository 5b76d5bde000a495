/** Whether the exhaust roofs can stand where they move to over speed. */

import type { Engine } from '../../model/engine.ts';
import { crankOf } from '../../timing/crank.ts';
import { engineAt } from '../../timing/roof-over-speed.ts';
import { firstOpening, roofTravel, windowShape } from '../../timing/window.ts';
import type { Judge } from '../keys/schema.ts';
import { burnsWhileShut } from './buildable.ts';

/** True where every roof that moves leaves an engine at each of its points; what is wrong was refused. */
export function roofsMove(engine: Engine, judge: Judge): boolean {
  const still = engine.transfers.windows.findIndex(({ raisedAt }) => raisedAt !== undefined);
  if (still >= 0) {
    judge.refuse(
      ['transfers', 'windows', still, 'raise'],
      'only exhaust roofs move over speed',
      'give it one raise',
    );
    return false;
  }
  const moving = engine.exhaust.windows.flatMap(({ raisedAt = [] }, index) =>
    raisedAt.map(({ rpm }) => ({ rpm, index })),
  );
  if (moving.length === 0) return true;
  for (const { rpm, index } of moving) {
    const why = fault(engineAt(engine, rpm), index);
    if (why !== '') {
      judge.refuse(['exhaust', 'windows', index, 'raise'], `at ${rpm.toFixed(0)} rpm ${why}`);
      return false;
    }
    if (!burnsWhileShut(engineAt(engine, rpm), judge)) return false;
  }
  judge.warn(
    'The exhaust roof moves over speed: what is told without a speed, as port events and patterns in check, map and aim, is of the roof as stated, not raised.',
  );
  return true;
}

function fault(engine: Engine, index: number): string {
  const crank = crankOf(engine);
  const window = engine.exhaust.windows[index]!;
  if (window.height !== null && window.height <= 0) return 'the roof would come down to the floor';
  if (roofTravel(crank, window) >= crank.stroke) return 'the port would never open';
  try {
    const openings = (windows: typeof engine.exhaust.windows): number =>
      Math.min(...windows.map((one) => firstOpening(windowShape(crank, engine.bore, one))));
    const exhaust = openings(engine.exhaust.windows);
    if (exhaust <= 0) return 'the roof would stand above the crown at top dead centre';
    return exhaust < openings(engine.transfers.windows) ? '' : 'the transfers would open before the exhaust';
  } catch (error) {
    if (error instanceof RangeError) return 'arch and corners need more than the height of the window';
    throw error;
  }
}
