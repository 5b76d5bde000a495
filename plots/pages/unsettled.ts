/** Which speeds did not settle, in words: a page must not pass over them. */

import type { SweepRow } from '../../src/findings/row.ts';
import { unsettledSpeeds } from '../../src/findings/settled.ts';
import { speed } from '../theme/numbers.ts';

/** The speeds at which a pipe's cycles did not settle; empty: all did. */
export function unsettledText(
  pipes: readonly { readonly name: string; readonly rows: readonly SweepRow[] }[],
): string {
  const parts = pipes.flatMap(({ name, rows }) => {
    const speeds = unsettledSpeeds(rows);
    return speeds.length === 0 ? [] : [`${name} at ${speeds.map((one) => speed(one)).join(', ')}`];
  });
  return parts.length === 0 ? '' : `Not settled, so means of the last cycles: ${parts.join('; ')} rpm.`;
}
