/** What reaches the port while the transfers are open: the suction, the compression that comes into it, and the way it took. */

import {
  type Compression,
  effectOn,
  type Suction,
  strongestCompression,
  suctionAbout,
} from '../../findings/interruption.ts';
import { type Path, traceArrival } from '../../findings/trace-path.ts';
import type { Baffle } from '../../pipe/places.ts';
import type { EngineNetwork } from '../build.ts';
import type { MeanCycle } from './mean-cycle.ts';
import { speedFields, TRACE_STEP_DEG } from './read-cycle.ts';
import type { CycleRecorder } from './recorder.ts';

export interface WhileTransferring {
  readonly suction: Suction | null;
  readonly compression: Compression | null;
  readonly effect: ReturnType<typeof effectOn>;
  /** The way of a compression that spoils the suction, by the middle of the baffle, degrees after EO; null: there is none. */
  readonly path: { readonly out: Path; readonly back: Path } | null;
}

/** Of the mean cycle; the way is traced through the last one. */
export function whileTransferring(
  engine: EngineNetwork,
  recorder: CycleRecorder,
  { returning, returns, plugBack }: MeanCycle,
  baffle: Baffle,
): WhileTransferring {
  const { exhaust, transfers } = engine.schedule.events;
  const after = (deg: number): number => deg - exhaust.opensDeg;
  const wave = {
    pressure: returning,
    stepDeg: TRACE_STEP_DEG,
    reference: engine.subject.engine.ambient.pressure,
    closesDeg: after(exhaust.closesDeg),
  };
  const suction = suctionAbout(wave, plugBack.suctionDeg);
  const compression = strongestCompression(wave, {
    opens: after(transfers.opensDeg),
    closes: after(transfers.closesDeg),
    baffle: returns.start,
    onset: plugBack.onsetDeg,
  });
  const effect = effectOn(suction, compression);
  const path =
    effect === 'nothing' || compression === null
      ? null
      : traceArrival(speedFields(recorder), compression.deg, baffle.middle, engine.rpm);
  return { suction, compression, effect, path };
}
