/**
 * The handbook's pipe as a start: Blair's proportions, with the gas temperature that the model found for the given pipe in
 * place of a guess. The header begins with the flange's diameter and widens to the handbook's, so that nothing jumps.
 */

import type { Case } from '../../model/case.ts';
import type { Pipe } from '../../model/pipe.ts';
import { diameterOf } from '../../pipe/circle.ts';
import { THREE_STAGE_RACING, TWO_STAGE_RACING } from '../../pipe/pipe-proportions.ts';
import { stagesOf } from '../../pipe/places.ts';
import { withMouth, withWallOf } from '../../pipe/shape.ts';
import { handbookPipe } from '../../timing/handbook.ts';

export interface HandbookWish {
  readonly target: number;
  readonly durationDeg: number;
  /** Mean gas temperature in the pipe [K]. */
  readonly gasTemperature: number;
}

export function handbookStart(subject: Case, wish: HandbookWish): Pipe {
  const { engine, pipe } = subject;
  const stages = stagesOf(pipe.sections, 'diffuser').length;
  const proportions = stages >= 3 ? THREE_STAGE_RACING : TWO_STAGE_RACING;
  const found = handbookPipe(
    engine,
    { rpm: wish.target, durationDeg: wish.durationDeg, gasTemperature: wish.gasTemperature, proportions },
    pipe,
  );
  return withWallOf(pipe, withMouth(found, diameterOf(engine.passage.exitArea)));
}
