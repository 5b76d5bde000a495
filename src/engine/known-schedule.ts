/**
 * The ports of the engine last asked for: a sweep or a search builds the same engine again and again with other speeds and
 * pipes, and its tables cost as much as some cycles of coarse cells. Engines are the same where their text is.
 */

import type { Engine } from '../model/engine.ts';
import { type PortSchedule, portSchedule } from '../timing/schedule.ts';

let known: { readonly text: string; readonly schedule: PortSchedule } | null = null;

/** The port schedule of an engine; it is shared and not to be changed. */
export function knownSchedule(engine: Engine): PortSchedule {
  const text = JSON.stringify(engine);
  if (known?.text !== text) known = { text, schedule: portSchedule(engine) };
  return known.schedule;
}
