/** A case as the command line wants it run. */

import type { Case } from '../../case/model.ts';
import type { Flags } from './flags.ts';

/** A case with the flags' speeds and cell length in place of its own. */
export function withFlags(subject: Case, flags: Flags): Case {
  return {
    ...subject,
    run: {
      ...subject.run,
      ...(flags.speeds === undefined ? {} : { speeds: flags.speeds }),
      ...(flags.cell === undefined ? {} : { cell: flags.cell }),
    },
  };
}
