/** A case run otherwise than its file says: at other speeds, on other cells. */

import type { Case } from '../../model/case.ts';

/** The case with other speeds [rpm] or another cell length [m], where they are given. */
export function withRun(
  subject: Case,
  { speeds, cell }: { readonly speeds?: readonly number[]; readonly cell?: number },
): Case {
  return {
    ...subject,
    run: {
      ...subject.run,
      ...(speeds === undefined ? {} : { speeds }),
      ...(cell === undefined ? {} : { cell }),
    },
  };
}
