/** What an aim advises to build first, as its document has it; none where no change is worth the metal. */

import { firstText, type ShownOffers } from '../../../plots/pages/aim-offers.ts';
import { overridesOf } from '../../study/aim/overrides.ts';
import type { AimResult } from '../../study/aim/result.ts';
import type { AimWish } from '../../study/aim/wish.ts';
import { pageWords } from './page-words.ts';

/** A pipe file that `set` names lies beside the document. */
export function aimAdvice({ subject, target }: AimWish, { steps }: AimResult, shown: ShownOffers) {
  const at = shown.offers.findIndex(({ id }) => id === shown.first);
  const [offer, step] = [shown.offers[at], steps[at]];
  if (offer === undefined || step === undefined) return { advice: [] };
  const { lands } = offer.band;
  return {
    advice: [
      {
        for: 'target',
        says: pageWords(firstText(shown)),
        set: overridesOf(subject.pipe, step, offer.file),
        promises: {
          torque_nm: offer.torque,
          at_rpm: target,
          lands_from_rpm: lands?.from ?? null,
          lands_to_rpm: lands?.to ?? null,
        },
        basis: 'run',
        cell: `${Number((1000 * subject.run.cell).toFixed(3))} mm`,
      },
    ],
  };
}
