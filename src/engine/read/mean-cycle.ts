/**
 * The mean cycle of a window, which is what a row tells. Waves are averaged before they are read: the peak of a broad wave
 * with two crests stands now on the one, now on the other, and the mean of such angles is a place where there is no crest.
 */

import type { Output } from '../../findings/output.ts';
import type { PlugBack } from '../../findings/plug-back.ts';
import type { EngineNetwork } from '../build.ts';
import { outputOfBook, plugBackOf, type TracedReturns } from './read-cycle.ts';
import { type CycleSummary, meanOf } from './window.ts';

export interface MeanCycle {
  readonly mean: (value: (cycle: CycleSummary) => number) => number;
  /** Outgoing wave at the port face on the grid of the traces [Pa]. */
  readonly outgoing: Float64Array;
  /** The returning wave there [Pa]. */
  readonly returning: Float64Array;
  readonly returns: TracedReturns;
  readonly plugBack: PlugBack;
  readonly output: Output;
}

export function meanCycle(engine: EngineNetwork, window: readonly CycleSummary[]): MeanCycle {
  const mean = (value: (cycle: CycleSummary) => number): number => meanOf(window.map(value));
  const meanReturn = (place: keyof TracedReturns): number | null => {
    const known = window.flatMap(({ reading }) => reading.returns[place] ?? []);
    return known.length === 0 ? null : meanOf(known);
  };
  const returns = { start: meanReturn('start'), middle: meanReturn('middle'), end: meanReturn('end') };
  const returning = meanTrace(window.map(({ reading }) => reading.traces.returning));
  return {
    mean,
    outgoing: meanTrace(window.map(({ reading }) => reading.traces.outgoing)),
    returning,
    returns,
    plugBack: plugBackOf(engine, returning, returns),
    // Of the mean books, so that charging = delivery times trapping holds for the means too.
    output: outputOfBook(engine, {
      cylinderWork: mean(({ book }) => book.cylinderWork),
      crankcaseWork: mean(({ book }) => book.crankcaseWork),
      delivered: mean(({ book }) => book.delivered),
      trapped: mean(({ book }) => book.trapped),
      trappedFresh: mean(({ book }) => book.trappedFresh),
    }),
  };
}

function meanTrace(traces: readonly Float64Array[]): Float64Array {
  return Float64Array.from(
    { length: Math.min(...traces.map((trace) => trace.length)) },
    (_, k) => traces.reduce((sum, trace) => sum + trace[k]!, 0) / traces.length,
  );
}
