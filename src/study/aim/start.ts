/**
 * Where a search starts: the given pipe, or the handbook's with the gas temperature that the model finds for the given
 * one; both are run over the judged band.
 */

import type { Pipe } from '../../model/pipe.ts';
import { engineEvents } from '../../timing/events.ts';
import type { DraftResult } from '../work/draft.ts';
import type { Asked, Evaluator } from './evaluator.ts';
import { handbookStart } from './handbook-start.ts';
import { meshed } from './mesh.ts';
import { type Judged, judge, judgedSpeeds } from './objective.ts';
import { AimFailure, type AimWish } from './result.ts';

export interface Start {
  readonly start: Pipe;
  readonly startedFrom: 'handbook' | 'draft';
  readonly gasTemperature: number;
  readonly judged: Judged;
}

/** The pipe that the search starts from: the better of the two, or the one asked for. */
export async function chosenStart(wish: AimWish, cells: number, evaluator: Evaluator): Promise<Start> {
  const { subject, target, from } = wish;
  const speeds = judgedSpeeds(target);
  const ask = (name: string, pipe: Pipe): Asked => ({
    name,
    subject: meshed(subject, pipe, { cells, speeds, quick: true }),
  });
  const [given] = await evaluator.results([ask('given', subject.pipe)]);
  const gasTemperature = temperatureOf(given as DraftResult, target);
  const draft = judge(given as DraftResult, target, 0);
  const { durationDeg } = engineEvents(subject.engine).exhaust;
  const handbook = handbookStart(subject, { target, durationDeg, gasTemperature });
  const [ran] = from === 'draft' ? [] : await evaluator.results([ask('handbook', handbook)]);
  const book = ran === undefined ? null : judge(ran, target, 0);
  const starts = [
    { start: subject.pipe, startedFrom: 'draft' as const, judged: from === 'handbook' ? null : draft },
    { start: handbook, startedFrom: 'handbook' as const, judged: book },
  ].filter((one) => one.judged !== null);
  // Without penalties first: their unit is the torque of the pipe that is chosen.
  const value = ({ torque, outsideDeg }: Judged): number => torque * Math.max(0, 1 - 0.02 * outsideDeg);
  const [chosen] = starts.sort((a, b) => value(b.judged as Judged) - value(a.judged as Judged));
  if (chosen === undefined) {
    const reason = given?.ok === false ? given.reason : 'its torque cannot be read';
    throw new AimFailure(`No pipe to start from could be run at ${target} rpm: ${reason}.`);
  }
  const rejudged = judge(
    (chosen.startedFrom === 'draft' ? given : ran) as DraftResult,
    target,
    (chosen.judged as Judged).torque,
  );
  return { ...chosen, gasTemperature, judged: rejudged as Judged };
}

/** Mean gas temperature over the pipe and the cycle [K]; a usual one where the given pipe could not be run. */
function temperatureOf(result: DraftResult, target: number): number {
  const row = result.ok ? result.rows.find((one) => one.speed_rpm === target) : undefined;
  return row?.pipe_mean_temperature_k ?? 850;
}
