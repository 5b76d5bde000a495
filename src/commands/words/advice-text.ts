/** Advice as `sweep.json` has it: what is said, what makes it, what it promises and how that is known. */

import { adviceText, unadvisedText } from '../../../plots/pages/advice-words.ts';
import type { AdviceReport } from '../../findings/answers/advice.ts';
import { pageWords } from './page-words.ts';

const mm = (metres: number): string => `${Number((1000 * metres).toFixed(3))} mm`;

export function adviceDocument({ advice, none }: AdviceReport) {
  return {
    advice: advice.map((one) => ({
      for: one.for,
      says: pageWords(adviceText(one)),
      set: one.set,
      promises: one.promises,
      costs: one.cost,
      basis: one.basis,
      cell: mm(one.cell),
      edge_cell: mm(one.edgeCell),
    })),
    /** Purposes for which nothing is advised, and why. */
    unadvised: none.map((one) => ({ for: one.for, says: pageWords(unadvisedText(one)) })),
  };
}
