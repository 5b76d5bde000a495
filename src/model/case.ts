/**
 * What a case file becomes once read: plain readonly data, every quantity in SI, crank angles in degrees after top dead
 * centre (names end in `Deg`). Nothing downstream sees a unit string or an absent value again.
 */

import type { Engine } from './engine.ts';
import type { AssumedInput, UsedInput } from './inputs.ts';
import type { Pipe } from './pipe.ts';
import type { RunSettings } from './run-settings.ts';

export interface Case {
  readonly name: string;
  readonly note: string;
  readonly engine: Engine;
  readonly pipe: Pipe;
  readonly run: RunSettings;
  readonly assumed: readonly AssumedInput[];
  /** Every input in the order of the file's keys, stated or assumed. */
  readonly inputs: readonly UsedInput[];
  /** What is allowed but odd, one sentence each. */
  readonly warnings: readonly string[];
}
