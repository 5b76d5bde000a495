/** What the head of a map's page says: the most torque of the whole map. */

import { ALIKE_SHARE } from '../../src/findings/answers/duration-line.ts';
import type { BestTorque } from '../../src/findings/answers/map.ts';
import { degrees, fixed, newtonMetres, percent, rpm } from '../theme/numbers.ts';

export function mapHeadline(best: BestTorque | null): string {
  if (best === null) return 'No point of the map was finished.';
  const { alike, durationDeg, value } = best;
  const at = rpm(best.speedRpm);
  if (alike.from === alike.to)
    return `Most torque with ${degrees(durationDeg)} of exhaust duration: ${newtonMetres(value)} at ${at}.`;
  return `Most torque with ${degrees(alike.from)} to ${degrees(alike.to)} of exhaust duration, all within ${percent(ALIKE_SHARE)}: ${lowest(alike.lowest, value)}${newtonMetres(value)} at ${at}.`;
}

/** "21.8 to ", nothing where both are written alike. */
function lowest(low: number, high: number): string {
  return fixed(low, 1) === fixed(high, 1) ? '' : `${fixed(low, 1)} to `;
}
