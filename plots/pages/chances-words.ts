/** In how many members one draft beats another, in words. */

import type { DraftChances, Lead } from '../../src/findings/member-chances.ts';
import { halfWidth } from '../../src/findings/percentile.ts';
import { fixed, rpm, signed, speed, THIN } from '../theme/numbers.ts';

/** `61 of 64, by +0.4 ± 0.3 Nm`. */
export function leadText({ better, by }: Lead, unit: string): string {
  const size = `${signed(by.p50, 2)} ± ${fixed(halfWidth(by), 2)}${THIN}${unit}`;
  return better.of === 0 ? 'in no member both have it' : `${better.in} of ${better.of}, by ${size}`;
}

export function chancesText({
  draft,
  against,
  at_target,
  over_band,
  best_torque,
  best_power,
}: DraftChances): string {
  const parts = [
    at_target === null ? '' : `torque at ${rpm(at_target.speed_rpm)} in ${leadText(at_target, 'Nm')}`,
    over_band === null
      ? ''
      : `mean torque from ${speed(over_band.from_rpm)} to ${rpm(over_band.to_rpm)} in ${leadText(over_band, 'Nm')}`,
    `best power in ${leadText(best_power, 'kW')}`,
    `best torque in ${leadText(best_torque, 'Nm')}`,
  ].filter((part) => part !== '');
  return `With the same members ${draft} beats ${against} by ${parts.join('; ')}.`;
}
