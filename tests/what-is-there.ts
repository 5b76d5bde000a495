/** Once for all tests: one line for each thing that is not on this machine, so that tests which need it are skipped. */

import { missing } from './on-this-machine.ts';

export function setup(): void {
  for (const line of missing) console.warn(line);
}
