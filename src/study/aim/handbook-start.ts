/**
 * The handbook's pipe as a start: Blair's proportions, with the gas temperature that the model found for the given pipe in
 * place of a guess. The header begins with the flange's diameter and widens to the handbook's, so that nothing jumps.
 */

import type { Case } from '../../model/case.ts';
import type { Pipe } from '../../model/pipe.ts';
import { THREE_STAGE_RACING, TWO_STAGE_RACING } from '../../pipe/pipe-proportions.ts';
import { diameterOf } from '../../pipe/pipe-table.ts';
import { withWallOf } from '../../pipe/shape.ts';
import { handbookPipe } from '../../timing/handbook.ts';

export interface HandbookWish {
  readonly target: number;
  readonly durationDeg: number;
  /** Mean gas temperature in the pipe [K]. */
  readonly gasTemperature: number;
}

export function handbookStart(subject: Case, wish: HandbookWish): Pipe {
  const { engine, pipe } = subject;
  const stages = pipe.sections.filter(({ role }) => role === 'diffuser').length;
  const proportions = stages >= 3 ? THREE_STAGE_RACING : TWO_STAGE_RACING;
  const found = handbookPipe(
    engine,
    { rpm: wish.target, durationDeg: wish.durationDeg, gasTemperature: wish.gasTemperature, proportions },
    pipe,
  );
  const flange = diameterOf(engine.passage.exitArea);
  const sections = found.sections.map((section, k) =>
    k === 0 ? { ...section, diameter: [flange, section.diameter[1]] as const } : section,
  );
  return withWallOf(pipe, { ...found, sections });
}
