/**
 * What the weather and a step of mixture do to a sweep's answer, run at its speed of interest beside the inputs that were not
 * measured. The mixture is kept as the case states it, but for the step of its own: no carburettor is modelled. How far the
 * band moves is read from the sweep: as many rpm as bring the middle of the wave as much later as the change brings it earlier.
 */

import type { OpenedFile } from '../../case/load.ts';
import { caseOf } from '../../case/load.ts';
import { type WeatherEffect, weatherEffect } from '../../findings/answers/weather.ts';
import type { SweepRow } from '../../findings/row.ts';
import { LEANER, LOWER, WARMER } from '../../timing/weather.ts';
import type { Move, Variant } from './sensitivity.ts';

const NAMES = ['warmer', 'lower', 'leaner'] as const;

/** The engine in other air, and with less fuel; overrides stay in force. */
export function weatherVariants(opened: OpenedFile, set: readonly string[]): readonly Variant[] {
  const { engine } = caseOf(opened, set);
  const { pressure, temperature } = engine.ambient;
  const kelvin = `${Number((temperature + WARMER).toFixed(3))} K`;
  const mixture = Number((engine.fuel.equivalenceRatio * (1 - LEANER)).toFixed(5));
  const changes: readonly (readonly [path: string, value: string, change: string])[] = [
    ['engine.ambient.temperature', kelvin, `+${WARMER} K`],
    ['engine.ambient.pressure', `${pressure - LOWER} Pa`, `-${LOWER / 100} mbar`],
    ['engine.fuel.equivalenceRatio', String(mixture), `-${100 * LEANER} %`],
  ];
  return changes.map(([path, value, change]) => ({
    path,
    change,
    subject: caseOf(opened, [...set, `${path}=${value}`]),
  }));
}

/** Their effects, from the moves of those variants, in order. */
export function weatherEffects(
  moves: readonly Move[],
  rows: readonly SweepRow[],
  rpm: number,
): readonly WeatherEffect[] {
  return NAMES.map((name, k) => weatherEffect(name, moves[k], rows, rpm));
}
