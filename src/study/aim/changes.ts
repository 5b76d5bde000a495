/** What became of the quantities that an aim moved. */

import type { Pipe } from '../../model/pipe.ts';
import type { AimQuantity } from './quantities.ts';
import type { AimChange } from './result.ts';

/** A quantity within this share of its range from an end rests on it. */
const AT_END = 0.01;

export function changesOf(
  quantities: readonly AimQuantity[],
  { given, start, after }: { given: Pipe; start: Pipe; after: Pipe },
): readonly AimChange[] {
  // Sections of the handbook's pipe are not those of the given one; then the change is told from the start.
  const alike = given.sections.length === start.sections.length;
  return quantities.map((quantity) => ({
    name: quantity.name,
    start: quantity.read(start),
    before: quantity.read(alike ? given : start),
    after: quantity.read(after),
    limit: restsOn(quantity, quantity.read(after)),
  }));
}

function restsOn({ low, high, lowText, highText }: AimQuantity, value: number): string {
  const near = AT_END * (high - low);
  if (value <= low + near) return lowText;
  return value >= high - near ? highText : '';
}
