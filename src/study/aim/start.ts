/**
 * What an aim begins with: the given pipe and the handbook's, drawn with the gas temperature that the model finds for the
 * given one, both run over the judged band on the search's mesh.
 */

import type { Pipe } from '../../model/pipe.ts';
import { engineEvents } from '../../timing/events.ts';
import type { DraftResult } from '../work/draft.ts';
import type { Asked, Evaluator } from './evaluator.ts';
import { handbookStart } from './handbook-start.ts';
import { type Judge, judgeOf } from './judge.ts';
import { meshed } from './mesh.ts';
import { type Judged, judgedSpeeds } from './objective.ts';
import { AimFailure } from './result.ts';
import type { AimWish } from './wish.ts';

export interface Opening {
  readonly pipe: Pipe;
  readonly judged: Judged;
}

export interface Openings {
  readonly gasTemperature: number;
  readonly judge: Judge;
  /** Mean torque of the better one, which costs of the score are measured in [Nm]. */
  readonly unit: number;
  /** Null: it could not be run. */
  readonly given: Opening | null;
  /** Null: it was not asked for, or could not be run. */
  readonly handbook: Opening | null;
}

/** Less than any engine's torque that is worth a pipe [Nm]. */
const LEAST_UNIT = 1e-3;

/** @throws AimFailure where there is nothing to start from */
export async function openings(wish: AimWish, cells: number, evaluator: Evaluator): Promise<Openings> {
  const { subject, target, from } = wish;
  const speeds = judgedSpeeds(target);
  const ask = (name: string, pipe: Pipe): Asked => ({
    name,
    subject: meshed(subject, pipe, { cells, speeds, quick: true }),
  });
  const [ran] = await evaluator.results([ask('given', subject.pipe)]);
  const gasTemperature = temperatureOf(ran as DraftResult, target);
  const { durationDeg } = engineEvents(subject.engine).exhaust;
  const drawn = handbookStart(subject, { target, durationDeg, gasTemperature });
  const [book] = from === 'draft' ? [] : await evaluator.results([ask('handbook', drawn)]);
  const runs = [
    { pipe: subject.pipe, result: ran },
    { pipe: drawn, result: book },
  ] as const;
  const torques = runs.map(({ pipe, result }) =>
    result === undefined ? 0 : (judgeOf(wish, 0, pipe)(result, pipe)?.torque ?? 0),
  );
  const unit = Math.max(LEAST_UNIT, ...torques);
  const judge = judgeOf(wish, unit, from === 'handbook' ? drawn : subject.pipe);
  const [given = null, handbook = null] = runs.map(({ pipe, result }): Opening | null => {
    const judged = result === undefined ? null : judge(result, pipe);
    return judged === null ? null : { pipe, judged };
  });
  if (handbook === null && (given === null || from === 'handbook')) {
    const reason = ran?.ok === false ? ran.reason : 'its torque cannot be read';
    throw new AimFailure(`No pipe to start from could be run at ${target} rpm: ${reason}.`);
  }
  return { gasTemperature, judge, unit, given, handbook };
}

/** Mean gas temperature over the pipe and the cycle [K]; a usual one where the given pipe could not be run. */
function temperatureOf(result: DraftResult, target: number): number {
  const row = result.ok ? result.rows.find((one) => one.speed_rpm === target) : undefined;
  return row?.pipe_mean_temperature_k ?? 850;
}
