/** A case run otherwise than its file says: at other speeds, on other cells. */

import type { Case } from '../../model/case.ts';
import { refuseHugeMesh } from './mesh-limit.ts';

/**
 * The case with other speeds [rpm] or another cell length [m], where they are given.
 * @throws Error where that makes a mesh that is not taken
 */
export function withRun(
  subject: Case,
  { speeds, cell }: { readonly speeds?: readonly number[]; readonly cell?: number },
): Case {
  const run = {
    ...subject.run,
    ...(speeds === undefined ? {} : { speeds }),
    ...(cell === undefined ? {} : { cell }),
  };
  refuseHugeMesh({ ...subject, run });
  return { ...subject, run };
}
