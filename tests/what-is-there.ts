/** Once for all tests: one line for each thing that is not on this machine, so that tests which need it are skipped. */

import { missing } from './on-this-machine.ts';

/** Every project of the tests sets up by itself, in one process: what was said once is not said again. */
const TOLD = Symbol.for('echocone.what-is-there');

export function setup(): void {
  const told = globalThis as { [TOLD]?: boolean };
  if (told[TOLD] === true) return;
  told[TOLD] = true;
  for (const line of missing) console.warn(line);
}
