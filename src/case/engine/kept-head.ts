/**
 * A roof that is moved by an override is cut in metal, and the head stays on: the clearance volume is kept, and a
 * compression counted from exhaust closing changes with the stroke that is left. A file that states roofs and a trapped
 * compression together states an engine, not a change; only overrides are changes. Whoever overrides the compression too
 * gets what he asks for.
 */

import type { Case } from '../../model/case.ts';
import { compressionRatios } from '../../timing/volume.ts';
import type { Override } from '../text/override.ts';

/** Keys of an exhaust window that say when it opens. */
const ROOF_KEYS: ReadonlySet<string> = new Set(['roof', 'duration', 'opens', 'raise', 'chamfer']);

/** The texts of the overrides that move no exhaust roof; null: none moves one, or the compression is overridden as well. */
export function withoutRoofs(
  overrides: readonly Override[],
  set: readonly string[],
): readonly string[] | null {
  const goesTo = ({ path }: Override, ...keys: readonly string[]): boolean =>
    keys.every((key, k) => path[k]?.key === key);
  if (overrides.length !== set.length || overrides.some((one) => goesTo(one, 'engine', 'compression')))
    return null;
  const moves = (one: Override): boolean =>
    goesTo(one, 'engine', 'exhaust', 'windows') && one.path.some(({ key }) => ROOF_KEYS.has(key));
  return overrides.some(moves) ? set.filter((_, k) => !moves(overrides[k]!)) : null;
}

/** The case with the clearance volume of another; where that is none of its own already, it is said what became of the compression. */
export function withHeadOf(subject: Case, other: Case): Case {
  if (subject.engine.compression.basis === 'full') return subject;
  const was = compressionRatios(other.engine);
  const engine = { ...subject.engine, compression: { ratio: was.full, basis: 'full' } as const };
  const is = compressionRatios(engine);
  const said =
    `The exhaust roof is moved and the head stays: compression from exhaust closing ${is.trapped.toFixed(2)}, ` +
    `before ${was.trapped.toFixed(2)}; over the full stroke ${was.full.toFixed(2)}.`;
  return { ...subject, engine, warnings: [...subject.warnings, said] };
}
