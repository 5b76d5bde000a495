/** What no engine can be, beyond what single keys take: refused with the reason, before anything is computed of it. */

import type { Engine } from '../../model/engine.ts';
import { engineEvents } from '../../timing/events.ts';
import { compressionRatios } from '../../timing/volume.ts';
import type { Judge } from '../keys/schema.ts';
import { writeQuantity } from '../text/units.ts';
import type { EngineKeys } from './engine-schema.ts';
import { MOST_COMPRESSION } from './engine-schema.ts';

/** Air that an engine can be run in: above the highest road and hotter than any desert are no more [Pa, K]. */
const AIR = { pressure: [0.1e5, 10e5], temperature: [200, 400] } as const;

export function couldBe(keys: EngineKeys, judge: Judge): boolean {
  const sound = [crownNearDeck(keys, judge), breathable(keys, judge)];
  return !sound.includes(false);
}

function crownNearDeck({ crownBelowDeck, stroke }: EngineKeys, judge: Judge): boolean {
  if (Math.abs(crownBelowDeck) < stroke / 2) return true;
  const [found, half] = [crownBelowDeck, stroke / 2].map((value) => writeQuantity(value, 'length', 'mm', 5));
  judge.refuse(
    ['crownBelowDeck'],
    `at top dead centre the crown would stand ${found} below the deck, half a stroke (${half}) or more away from it`,
    'it is a millimetre or two; the deck is the top face of the barrel',
  );
  return false;
}

function breathable({ ambient }: EngineKeys, judge: Judge): boolean {
  let sound = true;
  for (const [key, unit] of [
    ['pressure', 'bar'],
    ['temperature', 'degC'],
  ] as const) {
    const [least, most] = AIR[key];
    if (ambient[key] >= least && ambient[key] <= most) continue;
    const [found, from, to] = [ambient[key], least, most].map((one) => writeQuantity(one, key, unit, 5));
    judge.refuse(['ambient', key], `no engine runs in air of ${found}`, `it takes ${from} to ${to}`);
    sound = false;
  }
  return sound;
}

/** A trapped ratio or a lowered barrel must not leave less room at the top than a stated ratio may. */
export function roomAtTop(engine: Engine, path: readonly string[], judge: Judge): boolean {
  const { full } = compressionRatios(engine);
  if (full <= MOST_COMPRESSION * (1 + 1e-9)) return true;
  judge.refuse(
    path,
    `this makes a compression ratio of ${full.toFixed(1)} over the full stroke`,
    `at most ${MOST_COMPRESSION}: above the crown there has to be room`,
  );
  return false;
}

/** Heat is released into a shut cylinder: what burnt outside would burn the charge of another cycle. */
export function burnsWhileShut(engine: Engine, judge: Judge): boolean {
  const { start, durationDeg } = engine.combustion;
  const startDeg = Math.min(...start.map(({ deg }) => deg));
  const latestDeg = Math.max(...start.map(({ deg }) => deg));
  const { opensDeg, closesDeg } = engineEvents(engine).exhaust;
  const shutDeg = closesDeg - 360;
  const angle = (value: number): string => writeQuantity(value, 'angle', 'deg', 4);
  if (startDeg < shutDeg) {
    judge.refuse(
      ['combustion', 'start'],
      `heat release from ${angle(startDeg)} on would begin before the exhaust is shut, at ${angle(shutDeg)}`,
      'it begins some 12 to 16 deg before top dead centre',
    );
    return false;
  }
  if (latestDeg + durationDeg <= opensDeg) return true;
  judge.refuse(
    ['combustion', 'duration'],
    `heat release from ${angle(latestDeg)} to ${angle(latestDeg + durationDeg)} would go on after the exhaust opens, at ${angle(opensDeg)}`,
    `at most ${angle(opensDeg - latestDeg)} from this start`,
  );
  return false;
}
