/**
 * The same engine with another exhaust duration, as a file would make it: the roofs of all exhaust windows move up or
 * down the bore together, floors stay where they are cut.
 *
 * Duration means that of the main window's roof edge, the window that opens first; a chamfer above it opens earlier
 * still and moves along. With s(θ) the piston's travel, the main roof goes to s₁ = s(duration), every other roof by
 * the same s₁ − s₀, so each keeps its offset in height. Cutting a roof leaves the head alone: the clearance volume and
 * so the compression over the full stroke stay, the ratio counted from exhaust closing falls as the roof rises.
 */

import type { Case } from '../../model/case.ts';
import type { Engine } from '../../model/engine.ts';
import type { PortWindow } from '../../model/port-window.ts';
import { type Crank, crankOf, durationForTravel, travelForDuration } from '../../timing/crank.ts';
import { engineEvents } from '../../timing/events.ts';
import { compressionRatios } from '../../timing/volume.ts';
import { firstOpening, roofTravel, windowShape } from '../../timing/window.ts';

/** Exhaust duration of an engine as it stands: the roof edge of the window that opens first [deg]. */
export function exhaustDuration(engine: Engine): number {
  const crank = crankOf(engine);
  return durationForTravel(crank, roofTravel(crank, mainWindow(engine, crank)));
}

/** The exhaust window that opens first, a chamfer included. */
function mainWindow(engine: Engine, crank: Crank): PortWindow {
  const opening = (window: PortWindow): number => firstOpening(windowShape(crank, engine.bore, window));
  return engine.exhaust.windows.reduce((first, window) =>
    opening(window) < opening(first) ? window : first,
  );
}

/**
 * The case with its exhaust roofs moved to a duration [deg].
 * @throws RangeError where the windows cannot be cut so; the message says why
 */
export function withExhaustDuration(subject: Case, durationDeg: number): Case {
  const { engine } = subject;
  const crank = crankOf(engine);
  const roof = travelForDuration(crank, durationDeg);
  const down = roof - roofTravel(crank, mainWindow(engine, crank));
  const windows = engine.exhaust.windows.map((window) => movedRoof(window, down, crank));
  const openings = windows.map((window) => firstOpening(windowShape(crank, engine.bore, window)));
  if (!(Math.min(...openings) > 0)) throw new RangeError('the crown would never cover the port');
  const transfers = engine.transfers.windows.map((w) => firstOpening(windowShape(crank, engine.bore, w)));
  if (!(Math.min(...openings) < Math.min(...transfers)))
    throw new RangeError('the transfers would open before the exhaust');
  const exhaust = { ...engine.exhaust, windows };
  burnShut({ ...engine, exhaust });
  return {
    ...subject,
    engine: { ...engine, exhaust, compression: { ratio: compressionRatios(engine).full, basis: 'full' } },
  };
}

function burnShut(engine: Engine): void {
  const { start, durationDeg } = engine.combustion;
  const starts = start.map(({ deg }) => deg);
  const { opensDeg, closesDeg } = engineEvents(engine).exhaust;
  if (Math.max(...starts) + durationDeg > opensDeg)
    throw new RangeError('the charge would still burn as the exhaust opens');
  if (Math.min(...starts) < closesDeg - 360)
    throw new RangeError('the charge would burn before the exhaust shuts');
}

function movedRoof(window: PortWindow, down: number, crank: Crank): PortWindow {
  const travel = roofTravel(crank, window) + down;
  const height = window.height === null ? null : window.height - down;
  if (!(travel < crank.stroke) || (height !== null && !(height > 0)))
    throw new RangeError(`nothing would be left of window ${window.name}`);
  return { ...window, roof: { by: 'travel', travel }, height };
}
