/** What of a drawing one pipe has otherwise than another. */

import type { Pipe } from '../../model/pipe.ts';
import type { Dimension } from './result.ts';

/** A difference below this is none [m]. */
const LEAST = 5e-5;

/** Lengths and bores of `after` that differ from `before`; null where the two have other sections. */
export function dimensionsOf(before: Pipe, after: Pipe): readonly Dimension[] | null {
  const alike =
    before.sections.length === after.sections.length &&
    before.sections.every(({ name, role }, k) => {
      const other = after.sections[k];
      return other?.name === name && other.role === role;
    });
  if (!alike) return null;
  return before.sections.flatMap((was, k) => {
    const is = after.sections[k] ?? was;
    // A parallel section is told by its bore, a cone by its far end; a baffle ends as the stinger begins.
    const isParallel = is.diameter[0] === is.diameter[1];
    const bore = isParallel ? 'diameter' : 'end diameter';
    const told: readonly Dimension[] = [
      { name: was.name, before: was.length, after: is.length },
      ...(was.role === 'baffle' && k + 1 < before.sections.length
        ? []
        : [{ name: `${was.name} ${bore}`, before: was.diameter[1], after: is.diameter[1] }]),
    ];
    return told.filter((one) => Math.abs(one.after - one.before) > LEAST);
  });
}
