/**
 * Where the windows of a port stand on the bore, as measured and on a lifted barrel, and whether they can be cut there:
 * roofs between the crown at top and at bottom dead centre, no window wider than the bore, exhaust before transfers.
 */

import type { PortWindow } from '../../model/port-window.ts';
import { type Crank, crankAnglesAtTravel, durationForTravel } from '../../timing/crank.ts';
import { arcOfChord, firstOpening, roofTravel, windowShape } from '../../timing/window.ts';
import type { Judge } from '../keys/schema.ts';
import { writeQuantity } from '../text/units.ts';
import type { EngineKeys } from './engine-schema.ts';
import type { StatedWindow } from './port-schema.ts';

export interface StandingWindows {
  /** On the barrel as measured, the roof raised where asked. */
  readonly flush: readonly PortWindow[];
  /** The same windows on the lifted barrel. */
  readonly lifted: readonly PortWindow[];
}

type Port = 'exhaust' | 'transfers';

const millimetres = (value: number): string => writeQuantity(value, 'length', 'mm', 5);

export function standingWindows(
  stated: readonly StatedWindow[],
  port: Port,
  keys: EngineKeys,
  crank: Crank,
  judge: Judge,
): StandingWindows | undefined {
  const flush: PortWindow[] = [];
  const lifted: PortWindow[] = [];
  for (const [index, one] of stated.entries()) {
    const window = named(flushWindow(one, keys, crank), port, index, stated.length);
    const moved = liftedWindow(window, keys.barrelLift, crank);
    const refuse = (path: readonly string[], why: string, hint = ''): undefined =>
      judge.refuse([port, 'windows', index, ...path], why, hint);
    if (!widthFits(one, keys.bore, refuse)) continue;
    const places = moved === window ? [window] : [window, moved];
    if (
      !places.every(
        (place) =>
          heightsFit(one, place, keys.crownBelowDeck, crank, refuse) &&
          outlineFits(place, keys.bore, crank, refuse),
      )
    )
      continue;
    flush.push(window);
    lifted.push(moved);
  }
  return flush.length === stated.length ? { flush, lifted } : undefined;
}

type Refuse = (path: readonly string[], why: string, hint?: string) => undefined;

function named(window: PortWindow, port: Port, index: number, of: number): PortWindow {
  if (window.name !== '') return window;
  const noun = port === 'exhaust' ? 'exhaust' : 'transfer';
  return { ...window, name: of === 1 ? noun : `${noun} ${index + 1}` };
}

/** The window with its roof from the crown at top dead centre instead of from the deck, and raised. */
function flushWindow(stated: StatedWindow, keys: EngineKeys, crank: Crank): PortWindow {
  const { raise, fromDeck, roofPath: _, ...window } = stated;
  if (!fromDeck && raise === 0) return window;
  const travel = roofTravel(crank, window) - (fromDeck ? keys.crownBelowDeck : 0) - raise;
  return {
    ...window,
    roof: { by: 'travel', travel },
    height: window.height === null ? null : window.height + raise,
  };
}

function liftedWindow(window: PortWindow, lift: number, crank: Crank): PortWindow {
  if (lift === 0) return window;
  const travel = roofTravel(crank, window);
  const height = window.height ?? crank.stroke - travel;
  return { ...window, roof: { by: 'travel', travel: travel - lift }, height };
}

/** Longest that a port can be open [deg]: beyond, hardly a seventh of the stroke compresses or expands. */
const LONGEST = 270;

function heightsFit(
  stated: StatedWindow,
  window: PortWindow,
  crownBelowDeck: number,
  crank: Crank,
  refuse: Refuse,
): boolean {
  const travel = roofTravel(crank, window);
  const opening = travel - (window.chamferDepth > 0 ? window.chamferHeight : 0);
  if (opening <= 0) {
    refuse(
      stated.roofPath,
      `the roof would stand ${millimetres(-opening)} above the crown at top dead centre: the port would never be covered`,
      'a roof has to lie below the deck and the crown at top dead centre',
    );
    return false;
  }
  if (travel + crownBelowDeck <= 0) {
    refuse(stated.roofPath, 'the roof would stand above the deck: there is no wall to cut it in');
    return false;
  }
  const duration = durationForTravel(crank, Math.min(opening, crank.stroke));
  if (duration > LONGEST) {
    refuse(
      stated.roofPath,
      `the port would be open for ${duration.toFixed(0)} of 360 deg: next to nothing would be compressed or expanded`,
      `at most ${LONGEST} deg`,
    );
    return false;
  }
  if (travel >= crank.stroke) {
    refuse(
      stated.roofPath,
      `the roof would stand ${millimetres(travel)} below the crown at top dead centre, the stroke is ${millimetres(crank.stroke)}: the port would never open`,
    );
    return false;
  }
  if (window.height !== null && window.height > crank.stroke) {
    refuse(
      ['height'],
      `a window ${millimetres(window.height)} tall is taller than the stroke of ${millimetres(crank.stroke)}`,
    );
    return false;
  }
  if (window.height !== null && window.height <= 0) {
    refuse(['raise'], 'the roof would come down to the floor of the window');
    return false;
  }
  return true;
}

function widthFits(stated: StatedWindow, bore: number, refuse: Refuse): boolean {
  const most = stated.widthMeasure === 'chord' ? bore : Math.PI * bore;
  if (stated.width < most) return true;
  const along = stated.widthMeasure === 'chord' ? 'straight across' : 'along the bore';
  refuse(
    ['width'],
    `a window ${millimetres(stated.width)} wide ${along} does not fit a bore of ${millimetres(bore)}`,
  );
  return false;
}

function outlineFits(window: PortWindow, bore: number, crank: Crank, refuse: Refuse): boolean {
  try {
    windowShape(crank, bore, window);
    return true;
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const height = window.height ?? crank.stroke - roofTravel(crank, window);
    refuse(
      ['corners'],
      `arch and corner radii need more than the height of the window (${millimetres(height)})`,
    );
    return false;
  }
}

/** Whether the windows of each port fit around the bore and the exhaust opens first. */
export function portsFit(
  exhaust: StandingWindows,
  transfers: StandingWindows,
  keys: EngineKeys,
  crank: Crank,
  judge: Judge,
): boolean {
  const around = (port: Port, windows: readonly PortWindow[]): boolean => {
    const arc = windows.reduce((sum, one) => sum + one.count * arcWidth(one, keys.bore), 0);
    const fits = arc < Math.PI * keys.bore;
    if (!fits)
      judge.refuse(
        [port, 'windows'],
        `the windows are ${millimetres(arc)} wide together along the bore, which has ${millimetres(Math.PI * keys.bore)} around`,
      );
    return fits;
  };
  const fit = [around('exhaust', exhaust.lifted), around('transfers', transfers.lifted)];
  if (fit.includes(false)) return false;
  const opens = (windows: readonly PortWindow[]): readonly number[] =>
    windows.map((one) => firstOpening(windowShape(crank, keys.bore, one)));
  const exhaustOpens = Math.min(...opens(exhaust.lifted));
  const early = opens(transfers.lifted).findIndex((travel) => travel <= exhaustOpens);
  if (early < 0) return true;
  const deg = (travel: number): string => `${crankAnglesAtTravel(crank, travel).downDeg.toFixed(1)} deg`;
  const transferOpens = opens(transfers.lifted)[early]!;
  judge.refuse(
    ['transfers', 'windows', early, ...keys.transfers.windows[early]!.roofPath],
    `this window opens at ${deg(transferOpens)}, not after the exhaust, which opens at ${deg(exhaustOpens)}`,
    'without blowdown the cylinder would empty into the crankcase',
  );
  return false;
}

function arcWidth(window: PortWindow, bore: number): number {
  return window.widthMeasure === 'arc' ? window.width : arcOfChord(window.width, bore);
}
