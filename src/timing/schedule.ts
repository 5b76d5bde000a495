/**
 * The engine as functions of crank angle, for a solver that knows no crank.
 *
 * Open areas are tabled once on an even grid of about 0.1 deg that runs from the port's opening to its closing, and read
 * by straight interpolation: continuous, never negative, nought exactly while shut, no allocation. Volumes are cheap and
 * stay exact. Time enters only as deg = 6 · rpm · t.
 *
 * Areas come in two measures: on the bore's wall, as cut, and at right angles to the stream (`stream-area.ts`).
 * They are geometric; discharge coefficients are the solver's.
 */
import type { Engine } from '../model/engine.ts';
import type { Intake } from '../model/intake.ts';
import type { Crank } from './crank.ts';
import { crankAnglesAtTravel, pistonTravel, travelForDuration } from './crank.ts';
import type { EngineEvents } from './events.ts';
import { engineEvents } from './events.ts';
import { streamArea } from './stream-area.ts';
import type { Volumes } from './volume.ts';
import { volumesOf } from './volume.ts';
import type { WindowShape } from './window.ts';
import { outlineArea, windowArea, windowShape } from './window.ts';

/** Intervals a whole turn would have. */
const INTERVALS_PER_TURN = 3600;

export interface PortTable {
  readonly opensDeg: number;
  /** Closing, within one turn after the opening [deg]. */
  readonly closesDeg: number;
  /** Area at even angles from the opening to the closing [m2]. */
  readonly area: Float64Array;
  /** Largest area of the table [m2]. */
  readonly full: number;
}

export interface PortSchedule {
  readonly volumes: Volumes;
  readonly events: EngineEvents;
  readonly exhaustWall: PortTable;
  readonly exhaustStream: PortTable;
  readonly transferWall: PortTable;
  readonly transferStream: PortTable;
  /** Piston-ported or disc intake; null: a reed, which the gas itself opens. */
  readonly intake: PortTable | null;
}

/** An open area tabled between its opening and its closing; angles may lie on either side of top dead centre. */
export function portTable(opensDeg: number, closesDeg: number, areaAt: (deg: number) => number): PortTable {
  const span = closesDeg - opensDeg;
  if (!(span > 0 && span <= 360)) throw new RangeError(`a port open for ${span} deg`);
  const intervals = Math.ceil((span / 360) * INTERVALS_PER_TURN);
  const area = new Float64Array(intervals + 1);
  // Both ends stay nought unless the port never shuts.
  for (let i = 1; i < intervals; i++) area[i] = areaAt(opensDeg + (span * i) / intervals);
  if (span === 360) area[0] = area[intervals] = areaAt(opensDeg);
  return { opensDeg, closesDeg, area, full: area.reduce((a, b) => Math.max(a, b), 0) };
}

/** Turns the crank angle in the first slot, of any turn [deg], into the open area there [m2]; boxes no number on the way. */
export function turnIntoArea(table: PortTable, slots: Float64Array): void {
  const { opensDeg, closesDeg, area } = table;
  const since = slots[0]! - opensDeg;
  const into = since - 360 * Math.floor(since / 360);
  const span = closesDeg - opensDeg;
  slots[0] = 0;
  if (into >= span) return;
  const last = area.length - 1;
  const place = (into / span) * last;
  const i = Math.min(last - 1, Math.floor(place));
  const before = area[i]!;
  slots[0] = before + (place - i) * (area[i + 1]! - before);
}

const turned = new Float64Array(1);

/** Open area at a crank angle of any turn [m2]. */
export function samplePort(table: PortTable, deg: number): number {
  turned[0] = deg;
  turnIntoArea(table, turned);
  return turned[0];
}

function tableOf(crank: Crank, events: EngineEvents['exhaust'], along: 'wall' | 'stream'): PortTable {
  return portTable(events.opensDeg, events.closesDeg, (deg) => {
    const travel = pistonTravel(crank, deg);
    let area = 0;
    for (const { shape } of events.windows) {
      area += along === 'wall' ? windowArea(shape, travel) : streamArea(shape, travel);
    }
    return area;
  });
}

export function portSchedule(engine: Engine): PortSchedule {
  const volumes = volumesOf(engine);
  const events = engineEvents(engine);
  const { crank } = events;
  return {
    volumes,
    events,
    exhaustWall: tableOf(crank, events.exhaust, 'wall'),
    exhaustStream: tableOf(crank, events.exhaust, 'stream'),
    transferWall: tableOf(crank, events.transfers, 'wall'),
    transferStream: tableOf(crank, events.transfers, 'stream'),
    intake: intakeTable(crank, engine.bore, engine.intake),
  };
}

/** Open area of a mechanical intake; null for a reed. */
export function intakeTable(crank: Crank, bore: number, intake: Intake): PortTable | null {
  if (intake.kind === 'reed') return null;
  if (intake.kind === 'disc') {
    const { opensDeg, closesDeg, area, rampDeg } = intake;
    // The disc's straight edge sweeps the port at an even rate: a ramp up and a ramp down.
    const close = opensDeg + ((((closesDeg - opensDeg) % 360) + 360) % 360);
    return portTable(opensDeg, close, (deg) => {
      const ramp = rampDeg > 0 ? Math.min(1, (deg - opensDeg) / rampDeg, (close - deg) / rampDeg) : 1;
      return area * ramp;
    });
  }
  // The skirt lays the window open from its floor upwards while the piston is near top dead centre.
  const travelOpen = travelForDuration(crank, 360 - intake.durationDeg);
  const { upDeg, downDeg } = crankAnglesAtTravel(crank, travelOpen);
  const shape = pistonPortShape(crank, bore, intake);
  return portTable(upDeg - 360, downDeg, (deg) => outlineArea(shape, travelOpen - pistonTravel(crank, deg)));
}

/** The intake window turned upside down, so that it opens as the others do. */
function pistonPortShape(crank: Crank, bore: number, intake: Intake & { kind: 'piston-port' }): WindowShape {
  return windowShape(crank, bore, {
    name: 'intake',
    count: 1,
    width: intake.width,
    widthMeasure: 'chord',
    roof: { by: 'travel', travel: 0 },
    height: intake.height,
    cornerTop: intake.cornerRadius,
    cornerBottom: intake.cornerRadius,
    roofArch: 0,
    chamferHeight: 0,
    chamferDepth: 0,
    upAngleDeg: 0,
    aroundDeg: null,
  });
}
