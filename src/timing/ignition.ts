/** Where heat release starts at a speed: one angle for all, or a curve over speed, straight between its points. */

import type { Engine } from '../model/engine.ts';

/** Start of heat release at a speed [rpm]; beyond the curve's ends its end values hold [deg after top dead centre]. */
export function burnStart(combustion: Pick<Engine['combustion'], 'start'>, rpm: number): number {
  const { start } = combustion;
  const after = start.findIndex((point) => point.rpm >= rpm);
  const high = start[after < 0 ? start.length - 1 : after]!;
  const low = start[after < 0 ? start.length - 1 : Math.max(0, after - 1)]!;
  if (high.rpm <= low.rpm) return high.deg;
  return low.deg + ((high.deg - low.deg) * (rpm - low.rpm)) / (high.rpm - low.rpm);
}
