/**
 * What to mind before a draft is built that scored best: a score knows nothing of pistons, and a narrower tail or a leaner mixture than
 * the case has often scores better on the way to a seizure. Common practice, no source.
 */

import type { Case } from '../../model/case.ts';
import { endDiameter } from '../../pipe/places.ts';

/** A change by less than this share is none. */
const LEAST = 0.005;

interface Called {
  /** What the draft is called, `the best draft`, and what it is held against, `the case`. */
  readonly draft: string;
  readonly base: string;
}

const BEST: Called = { draft: 'the best draft', base: 'the case' };

/** Sentences that begin with a caution; none where nothing of the kind was done. */
export function cautionsOf(
  base: Pick<Case, 'engine' | 'pipe'>,
  draft: Pick<Case, 'engine' | 'pipe'>,
  called: Called = BEST,
): readonly string[] {
  const [bore, was] = [endDiameter(draft.pipe), endDiameter(base.pipe)];
  const [ratio, before] = [draft.engine.fuel.equivalenceRatio, base.engine.fuel.equivalenceRatio];
  const mm = (value: number): string => (1000 * value).toFixed(1);
  return [
    bore < (1 - LEAST) * was
      ? `Caution: the tail of ${called.draft} has ${mm(bore)} mm, that of ${called.base} ${mm(was)} mm. A narrower stinger heats the piston; torque does not show it. Go down in small steps and read the plug and the piston.`
      : '',
    ratio < (1 - LEAST) * before
      ? `Caution: the mixture of ${called.draft} is ${ratio.toFixed(2)}, that of ${called.base} ${before.toFixed(2)}. A leaner one can seize the piston; torque does not show it.`
      : '',
  ].filter((text) => text !== '');
}
