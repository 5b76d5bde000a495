/**
 * From the keys of an engine file to the engine: windows brought to travels where needed, a lift of the barrel worked in,
 * areas and volumes found, and what cannot be built refused with the reason.
 *
 * A barrel lifted by b moves every window up by b (travel s − b, the floor too), takes the deck from the crown, adds A b
 * to the clearance and to the crankcase (A the piston's area), and uncovers a piston-port later.
 */

import type { Engine } from '../../model/engine.ts';
import type { AssumedInput } from '../../model/inputs.ts';
import type { Intake } from '../../model/intake.ts';
import type { PortWindow } from '../../model/port-window.ts';
import { areaOf } from '../../pipe/circle.ts';
import { type Crank, crankOf, durationForTravel, travelForDuration } from '../../timing/crank.ts';
import { volumesOf } from '../../timing/volume.ts';
import { outlineArea, windowShape } from '../../timing/window.ts';
import { ofKind } from '../keys/kinds.ts';
import { checked, type Judge, note, type Schema, within } from '../keys/schema.ts';
import { writeQuantity } from '../text/units.ts';
import { burnsWhileShut, couldBe, roomAtTop } from './buildable.ts';
import { ANNAND, type EngineKeys, engineKeys } from './engine-schema.ts';
import { headOf } from './head-schema.ts';
import { roofsMove } from './moving-roof.ts';
import { passageOf, passagesFit } from './transfer-passage-schema.ts';
import { leaveMetal } from './window-overlaps.ts';
import { portsFit, standingWindows } from './window-places.ts';

const millimetres = (value: number): string => writeQuantity(value, 'length', 'mm', 5);

/** An engine; `name` is used when the file states none. */
export function engineSchema(name: string): Schema<Engine> {
  return checked(ofKind('engine', engineKeys), (keys, judge) => {
    if (!cranks(keys, judge) || !couldBe(keys, judge)) return undefined;
    const crank = crankOf(keys);
    const exhaust = standingWindows(keys.exhaust.windows, 'exhaust', keys, crank, judge);
    const transfers = standingWindows(keys.transfers.windows, 'transfers', keys, crank, judge);
    if (exhaust === undefined || transfers === undefined) return undefined;
    if (!portsFit(exhaust, transfers, keys, crank, judge)) return undefined;
    const flush = { exhaust: exhaust.flush, transfers: transfers.flush };
    if (!leaveMetal(flush, keys.bore, crank, judge)) return undefined;
    const engine = flushEngine(keys, name, crank, flush, judge);
    if (engine === undefined) return undefined;
    if (!roomAtTop(engine, ['compression', engine.compression.basis], judge)) return undefined;
    const head =
      keys.head === null ? null : headOf(keys.head, engine.bore, volumesOf(engine).clearance, judge);
    if (head === undefined) return undefined;
    const whole = lifted(
      { ...engine, head },
      keys,
      { exhaust: exhaust.lifted, transfers: transfers.lifted },
      judge,
    );
    if (whole === undefined || !burnsWhileShut(whole, judge) || !passagesFit(whole, judge)) return undefined;
    return roofsMove(whole, judge) ? whole : undefined;
  });
}

function cranks(keys: EngineKeys, judge: Judge): boolean {
  const { rod, stroke, pinOffset } = keys;
  const half = stroke / 2;
  if (Math.abs(pinOffset) > stroke / 4) {
    judge.refuse(
      ['pinOffset'],
      `an offset of ${millimetres(pinOffset)} is more than a quarter of the stroke of ${millimetres(stroke)}`,
    );
    return false;
  }
  if (rod <= half + Math.abs(pinOffset)) {
    judge.refuse(
      ['rod'],
      `a rod of ${millimetres(rod)} is not longer than half the stroke (${millimetres(half)}): the crank could not turn`,
    );
    return false;
  }
  if (rod < stroke)
    judge.warn(
      `The rod of ${millimetres(rod)} is shorter than the stroke; usual are 1.8 to 2.2 strokes (common practice, no source).`,
    );
  return true;
}

interface Windows {
  readonly exhaust: readonly PortWindow[];
  readonly transfers: readonly PortWindow[];
}

/** The engine with its barrel as measured. */
function flushEngine(
  keys: EngineKeys,
  name: string,
  crank: Crank,
  windows: Windows,
  judge: Judge,
): Engine | undefined {
  const area = (list: readonly PortWindow[]): number =>
    list.reduce((sum, one) => {
      const shape = windowShape(crank, keys.bore, one);
      return sum + one.count * outlineArea(shape, shape.floor - shape.roof);
    }, 0);
  const pistonArea = areaOf(keys.bore);
  const { passage, crankcase, cylinderHeat } = keys;
  const between = passageOf(keys.transfers.passage, area(windows.transfers), judge, (path, value, reason) =>
    assume(judge, path, value, reason),
  );
  if (between === undefined) return undefined;
  const circle = (diameter: number | null): number | null => (diameter === null ? null : areaOf(diameter));
  return {
    name: keys.name ?? name,
    bore: keys.bore,
    stroke: keys.stroke,
    rod: keys.rod,
    pinOffset: keys.pinOffset,
    compression: keys.compression,
    crownBelowDeck: keys.crownBelowDeck,
    barrelLift: 0,
    exhaust: { windows: windows.exhaust, discharge: keys.exhaust.discharge },
    transfers: {
      windows: windows.transfers,
      discharge: keys.transfers.discharge,
      passage: between,
    },
    passage: {
      length: passage.length,
      entryArea:
        passage.entryArea ??
        circle(passage.entryDiameter) ??
        assumeArea(
          judge,
          ['passage', 'entryArea'],
          area(windows.exhaust),
          'the area of the exhaust windows, down to the piston at bottom dead centre: the duct starts with their outline',
        ),
      exitArea: passage.exitArea ?? circle(passage.exitDiameter)!,
      wallTemperature: passage.wallTemperature,
    },
    crankcase: {
      volume: crankcase.volume ?? (pistonArea * crank.stroke) / (crankcase.compression! - 1),
      wallTemperature: crankcase.wallTemperature,
    },
    intake: keys.intake,
    combustion: {
      start: keys.combustion.start,
      durationDeg: keys.combustion.duration,
      residualAtDuration: keys.combustion.residualAtDuration,
      wiebeEfficiency: keys.combustion.wiebeEfficiency,
      wiebeExponent: keys.combustion.wiebeExponent,
      completeness: keys.combustion.completeness,
    },
    head: null,
    fuel: keys.fuel,
    scavenging: keys.scavenging,
    cylinderHeat: {
      ...cylinderHeat,
      coefficient: cylinderHeat.coefficient ?? usualCoefficient(cylinderHeat.model, judge),
    },
    friction: keys.friction,
    ambient: keys.ambient,
  };
}

function assumeArea(judge: Judge, path: readonly string[], value: number, reason: string): number {
  assume(judge, path, writeQuantity(value, 'area', 'mm2', 5), reason);
  return value;
}

function assume(
  judge: Judge,
  path: readonly string[],
  value: string,
  reason: string,
  sort: AssumedInput['sort'] = 'quantity',
): void {
  const at = path.reduce(within, judge.at);
  note({ ...at, assuming: { reason, sort } }, value);
}

function usualCoefficient(model: Engine['cylinderHeat']['model'], judge: Judge): number {
  if (model === 'none') return 0;
  const [value, reason] =
    model === 'annand'
      ? [ANNAND.value, ANNAND.reason]
      : [1, 'the correlation as published, value from memory'];
  assume(judge, ['cylinderHeat', 'coefficient'], String(value), reason);
  return value;
}

/** The same engine with its barrel lifted. */
function lifted(engine: Engine, keys: EngineKeys, windows: Windows, judge: Judge): Engine | undefined {
  const lift = keys.barrelLift;
  if (lift === 0) return engine;
  const volumes = volumesOf(engine);
  const clearance = volumes.clearance + volumes.pistonArea * lift;
  if (clearance <= 0) {
    return judge.refuse(
      ['barrelLift'],
      'the barrel would come down so far that the crown meets the head',
      `at least ${millimetres(-volumes.clearance / volumes.pistonArea)}`,
    );
  }
  const intake = liftedIntake(engine.intake, volumes.crank, lift);
  if (intake === null) return judge.refuse(['barrelLift'], 'the intake window would never be uncovered');
  const moved: Engine = {
    ...engine,
    barrelLift: lift,
    crownBelowDeck: engine.crownBelowDeck + lift,
    head: liftedHead(engine.head, volumes.pistonArea, lift),
    exhaust: { ...engine.exhaust, windows: windows.exhaust },
    transfers: { ...engine.transfers, windows: windows.transfers },
    crankcase: { ...engine.crankcase, volume: engine.crankcase.volume + volumes.pistonArea * lift },
    intake,
  };
  // The ratio that gives this clearance on the lifted barrel: clearance (ratio - 1) is its swept part.
  const sweptPart = volumesOf({ ...moved, compression: { ...moved.compression, ratio: 2 } }).clearance;
  const whole = { ...moved, compression: { ...moved.compression, ratio: 1 + sweptPart / clearance } };
  return roomAtTop(whole, ['barrelLift'], judge) ? whole : undefined;
}

/** A lifted barrel takes the head with it. */
function liftedHead(head: Engine['head'], pistonArea: number, lift: number): Engine['head'] {
  if (head === null) return null;
  const volume = head.volume === null ? null : head.volume + pistonArea * lift;
  return { ...head, squishClearance: head.squishClearance + lift, volume };
}

/** A piston-port stands higher on a lifted barrel, so that the skirt lays it open later; null: never. */
function liftedIntake(intake: Intake, crank: Crank, lift: number): Intake | null {
  if (intake.kind !== 'piston-port') return intake;
  const floor = travelForDuration(crank, 360 - intake.durationDeg) - lift;
  if (floor <= 0 || floor >= crank.stroke) return null;
  return { ...intake, durationDeg: 360 - durationForTravel(crank, floor) };
}
