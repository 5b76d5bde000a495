/**
 * What to mind before the best draft is built: a score knows nothing of pistons, and a narrower tail or a leaner mixture than
 * the case has often scores better on the way to a seizure. Common practice, no source.
 */

import type { Case } from '../../model/case.ts';
import { endDiameter } from '../../pipe/places.ts';

/** A change by less than this share is none. */
const LEAST = 0.005;

export function cautionsOf(base: Case, best: Case): readonly string[] {
  const [bore, was] = [endDiameter(best.pipe), endDiameter(base.pipe)];
  const [ratio, before] = [best.engine.fuel.equivalenceRatio, base.engine.fuel.equivalenceRatio];
  const mm = (value: number): string => (1000 * value).toFixed(1);
  return [
    bore < (1 - LEAST) * was
      ? `Caution: the best draft's tail has ${mm(bore)} mm, the case's ${mm(was)} mm. A narrower stinger heats the piston; the score does not see that. Go down in small steps and read the plug and the piston.`
      : '',
    ratio < (1 - LEAST) * before
      ? `Caution: the best draft's mixture is ${ratio.toFixed(2)}, the case's ${before.toFixed(2)}. A leaner one can seize the piston; the score does not see that.`
      : '',
  ].filter((text) => text !== '');
}
