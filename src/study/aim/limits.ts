/** What holds an aimed pipe back: ends of the searched ranges, constraints it rests on, and the window of its plug-back. */

import type { Constraint, Drawn } from '../work/constraints.ts';
import type { AimQuantity } from './quantities.ts';
import type { AimedPipe } from './result.ts';

/** A quantity within this share of its range from an end rests on it. */
const AT_END = 0.01;
/** A constraint missed by less than this share of its limit is active. */
const ACTIVE = 0.006;
/** A middle of the plug-back so near to the window's edge is held there [deg]. */
const AT_EDGE = 0.7;

export function reachedLimits(
  draft: Drawn,
  quantities: readonly AimQuantity[],
  constraints: readonly Constraint[],
  after: Pick<AimedPipe, 'rows' | 'judged'>,
  target: number,
): readonly string[] {
  const ends = quantities.flatMap(({ name, low, high, lowText, highText, read }) => {
    const value = read(draft.pipe);
    const text = `${name} ${Math.round(1000 * value)} mm is`;
    if (value <= low + AT_END * (high - low)) return [`${text} ${lowText}`];
    return value >= high - AT_END * (high - low) ? [`${text} ${highText}`] : [];
  });
  const held = constraints
    .filter((one) => one.miss(draft) > -ACTIVE)
    .map((one) => `${one.name} ${one.found(draft)}, allowed ${one.allows}`);
  return [...ends, ...held, ...windowEdge(after, target)];
}

function windowEdge({ rows, judged }: Pick<AimedPipe, 'rows' | 'judged'>, target: number): readonly string[] {
  const row = rows.find((one) => one.speed_rpm === target);
  if (row === undefined || judged === null) return [];
  const { middleLeadDeg: lead, outsideDeg } = judged;
  if (lead === null) return [`no plug-back is found at ${target} rpm`];
  const window = (row.exhaust_closes_deg ?? 0) - (row.transfers_close_deg ?? 0);
  const lands = (place: string): readonly string[] => [`the middle of the plug-back lands ${place}`];
  if (outsideDeg > 0) return lands(lead < 0 ? 'after exhaust closing' : 'before transfer closing');
  if (lead < AT_EDGE) return lands('just before exhaust closing');
  return lead > window - AT_EDGE ? lands('just after transfer closing') : [];
}
