/** Puts a settled engine's last cycles into the row of the contract and the traces that the page draws. */

import type { SpeedRecord } from '../../findings/record.ts';
import type { EngineNetwork } from '../build.ts';
import { alongOf, detailOf, emptyDetail, tracedPath } from './detail.ts';
import { echoReturn, outgoingPeak } from './echo.ts';
import { meanCycle } from './mean-cycle.ts';
import { notesOf } from './notes.ts';
import { baffleOf } from './read-cycle.ts';
import { sweepRow } from './sweep-row.ts';
import { type WhileTransferring, whileTransferring } from './while-transferring.ts';
import type { Settled } from './window.ts';

/** The first pulse is computed with the settled engine, which it uses up. */
export function speedRecord(
  engine: EngineNetwork,
  settled: Settled,
  firstPulse: () => number,
  brief: boolean,
): SpeedRecord {
  const opens = engine.schedule.events.exhaust.opensDeg;
  const detail = brief ? emptyDetail() : detailOf(engine, settled, opens);
  const along = alongOf(engine, settled);
  const cycle = meanCycle(engine, settled.window);
  const baffle = baffleOf(engine);
  const echo = echoReturn(engine, settled.recorder, cycle.plugBack, baffle);
  const during = whileTransferring(engine, settled.recorder, cycle, baffle);
  // From here on the recorder is used again.
  const first = firstPulse();
  const ambient = engine.subject.engine.ambient.pressure;
  const gain = (outgoingPeak(engine, cycle.outgoing) - ambient) / (first - ambient);
  const row = sweepRow(engine, settled, cycle, { echo, gain, during });
  const notes = notesOf(engine, settled, cycle, row, during);
  const paths = [...detail.paths, ...(brief ? [] : echoPaths(during, opens))];
  return { row, notes, ...detail, paths, along };
}

/** The way of what spoils the suction, as far as it is traced. */
const echoPaths = ({ path }: WhileTransferring, opens: number): SpeedRecord['paths'] =>
  path === null ? [] : [tracedPath({ name: 'echo', ...path }, opens)];
