/**
 * Everything that can be said of an engine and its pipe before a single wave is computed: port events, areas,
 * time-areas, the pipe's geometry, the handbook's opinion, rules of thumb, and what was assumed on the way.
 */
import type { Case } from '../../model/case.ts';
import type { AssumedInput } from '../../model/inputs.ts';
import { areaOf } from '../../pipe/circle.ts';
import type { PipeLengths, SectionRow } from '../../pipe/pipe-table.ts';
import { pipeLengths, sectionRows } from '../../pipe/pipe-table.ts';
import { diameterAt, TRANSITION } from '../../pipe/places.ts';
import { meanPistonSpeed } from '../crank.ts';
import type { EngineEvents, PortEvents } from '../events.ts';
import { engineEvents } from '../events.ts';
import {
  HANDBOOK_BMEP,
  handbookGasTemperature,
  handbookSoundSpeed,
  JENNINGS_WAVE_SPEED,
  returnAngle,
  tunedLength,
  tunedSpeed,
} from '../handbook.ts';
import { type HandbookTimeArea, handbookTimeAreas } from '../handbook-time-areas.ts';
import { releaseEstimate } from '../release-estimate.ts';
import { chordArea } from '../stream-area.ts';
import type { TimeAreas } from '../time-area.ts';
import { portArea, portStreamArea, timeAreas, timeAreasWanted } from '../time-area.ts';
import { compressionRatios, crankcaseCompression, sweptVolume, volumesOf } from '../volume.ts';
import { thinnerAir } from '../weather.ts';
import { outlineArea } from '../window.ts';
import { RULES } from './all-rules.ts';
import { headRules } from './head-rules.ts';
import type { RuleFinding, RuleInput } from './rule.ts';

export const CAUTION =
  'Over-revving, lean mixtures and narrow stingers wreck engines: change one thing at a time, on a guarded stand, ' +
  'within local rules and licensed practice.';

export interface WindowRow {
  readonly port: 'exhaust' | 'transfer';
  readonly name: string;
  readonly count: number;
  readonly chordWidth: number;
  readonly height: number;
  /** Gas from here to there, a chamfer included [deg]. */
  readonly opensDeg: number;
  readonly closesDeg: number;
  readonly durationDeg: number;
  /** Duration of the roof's edge alone [deg]. */
  readonly edgeDurationDeg: number;
  /** Travel of the crown to the roof's edge [m]. */
  readonly roofTravel: number;
  /** Largest open area of all `count`, on the wall and along the stream [m2]. */
  readonly wallArea: number;
  readonly streamArea: number;
}

export interface HandbookReport {
  readonly gasTemperature: number;
  readonly soundSpeed: number;
  readonly durationDeg: number;
  /** Length that the target speed wants: to the baffle's end by this temperature, to its middle by 1700 ft/s [m]. */
  readonly wantedLength: number;
  readonly wantedLengthJennings: number;
  /** Length there is to the baffle's end [m], and the speed it suits [rpm]; null without a baffle. */
  readonly actualLength: number | null;
  readonly suitsSpeed: number | null;
  /** Where the handbook pulse is back at each speed [deg after top dead centre]. */
  readonly returns: readonly { readonly rpm: number; readonly deg: number; readonly lateDeg: number }[];
}

export interface CheckReport {
  readonly schemaVersion: 1;
  readonly name: string;
  readonly note: string;
  readonly engineName: string;
  readonly pipeName: string;
  readonly displacement: number;
  readonly trueStroke: number;
  /** How far the crown stands below the deck at top dead centre [m]. */
  readonly crownBelowDeck: number;
  readonly compression: { readonly full: number; readonly trapped: number; readonly crankcase: number };
  readonly aim: {
    readonly rpm: number;
    readonly stated: boolean;
    readonly bmep: number;
    readonly meanPistonSpeed: number;
  };
  readonly events: {
    readonly exhaustOpensDeg: number;
    readonly exhaustClosesDeg: number;
    readonly exhaustDurationDeg: number;
    readonly transfersOpenDeg: number;
    readonly transfersCloseDeg: number;
    readonly transferDurationDeg: number;
    readonly blowdownDeg: number;
  };
  readonly windows: readonly WindowRow[];
  /** Largest areas of each port together [m2]. */
  readonly areas: {
    readonly exhaust: number;
    readonly exhaustStream: number;
    readonly exhaustAtTransferOpening: number;
    readonly transfer: number;
    readonly transferStream: number;
  };
  readonly timeAreas: readonly TimeAreas[];
  readonly timeAreasWanted: { readonly blowdown: number; readonly transfer: number; readonly source: string };
  /** The handbook's own figure at the speed aimed at, against its ranges. */
  readonly timeAreasHandbook: readonly HandbookTimeArea[];
  readonly sections: readonly SectionRow[];
  readonly lengths: PipeLengths;
  readonly handbook: HandbookReport;
  readonly wall: readonly { readonly position: number; readonly temperature: number }[] | 'balance';
  readonly rules: readonly RuleFinding[];
  readonly warnings: readonly string[];
  readonly assumed: readonly AssumedInput[];
  /** Share by which the air is thinner, 10 K warmer or 20 mbar lower [-]. */
  readonly weather: { readonly warmer: number; readonly lower: number };
  readonly caution: string;
}

export interface CheckAim {
  /** Brake mean effective pressure aimed at [Pa]. */
  readonly bmep?: number;
  /** Mean gas temperature in the pipe [K]; else the handbook's for that pressure. */
  readonly gasTemperature?: number;
}

/** The speed aimed at: the stated one, or the middle of the sweep [rpm]. */
export function aimedSpeed({ run }: Case): number {
  const middle = run.speeds[Math.floor(run.speeds.length / 2)];
  return run.targetSpeed ?? middle ?? 10_000;
}

export function checkReport(subject: Case, aim: CheckAim = {}): CheckReport {
  const { engine, pipe, run } = subject;
  const events = engineEvents(engine);
  const volumes = volumesOf(engine);
  const displacement = sweptVolume(volumes);
  const rpm = aimedSpeed(subject);
  const bmep = aim.bmep ?? HANDBOOK_BMEP;
  const gasTemperature = aim.gasTemperature ?? handbookGasTemperature(bmep);
  const sections = sectionRows(subject);
  const lengths = pipeLengths(sections);
  const atAim = timeAreas(events, displacement, rpm);
  const { crank, exhaust, transfers } = events;
  const areas = {
    exhaust: portArea(crank, exhaust, crank.bottomDeg),
    exhaustStream: portStreamArea(crank, exhaust, crank.bottomDeg),
    exhaustAtTransferOpening: portArea(crank, exhaust, transfers.opensDeg),
    transfer: portArea(crank, transfers, crank.bottomDeg),
    transferStream: portStreamArea(crank, transfers, crank.bottomDeg),
  };
  const input: RuleInput = {
    engine,
    pipe,
    events,
    volumes,
    rows: sections,
    lengths,
    rpm,
    bmep,
    gasTemperature,
    timeAreas: atAim,
    release: releaseEstimate(engine, events, volumes, {
      rpm,
      bmep,
      gasTemperature,
      headerArea: areaOf(diameterAt(pipe, TRANSITION)),
    }),
    effectivePortArea: areas.exhaustStream,
  };
  const speeds = [...new Set([...run.speeds, rpm])].sort((a, b) => a - b);
  const wanted = timeAreasWanted(bmep);
  return {
    schemaVersion: 1,
    name: subject.name,
    note: subject.note,
    engineName: engine.name,
    pipeName: pipe.name,
    displacement,
    trueStroke: crank.stroke,
    crownBelowDeck: engine.crownBelowDeck,
    compression: { ...compressionRatios(engine), crankcase: crankcaseCompression(volumes) },
    aim: { rpm, stated: run.targetSpeed !== null, bmep, meanPistonSpeed: meanPistonSpeed(crank, rpm) },
    events: eventSummary(events),
    windows: [
      ...windowRows('exhaust', exhaust, crank.stroke),
      ...windowRows('transfer', transfers, crank.stroke),
    ],
    areas,
    // Time-area goes as one over speed, exactly.
    timeAreas: speeds.map((speed) => scaledTimeAreas(atAim, speed)),
    timeAreasWanted: {
      blowdown: wanted.blowdown,
      transfer: wanted.transfer,
      source: 'Blair (1996) ch. 6, value from memory, unverified',
    },
    timeAreasHandbook: handbookTimeAreas(engine, crank, displacement, atAim),
    sections,
    lengths,
    handbook: handbookReport(events, lengths, { rpm, gasTemperature, speeds }),
    wall: pipe.wall.by === 'given' ? pipe.wall.at : 'balance',
    rules: [...RULES.map((rule) => rule(input)), ...headRules(input)],
    warnings: [...subject.warnings, ...ownWarnings(subject, events, lengths)],
    assumed: subject.assumed,
    weather: thinnerAir(engine.ambient),
    caution: CAUTION,
  };
}

function eventSummary({ exhaust, transfers }: EngineEvents): CheckReport['events'] {
  return {
    exhaustOpensDeg: exhaust.opensDeg,
    exhaustClosesDeg: exhaust.closesDeg,
    exhaustDurationDeg: exhaust.durationDeg,
    transfersOpenDeg: transfers.opensDeg,
    transfersCloseDeg: transfers.closesDeg,
    transferDurationDeg: transfers.durationDeg,
    blowdownDeg: transfers.opensDeg - exhaust.opensDeg,
  };
}

function windowRows(port: WindowRow['port'], events: PortEvents, stroke: number): WindowRow[] {
  return events.windows.map(({ shape, ...times }) => {
    const open = Math.min(stroke, shape.floor) - shape.roof;
    const area = shape.count * outlineArea(shape, open);
    return {
      port,
      name: shape.name,
      count: shape.count,
      chordWidth: shape.chordWidth,
      height: shape.floor - shape.roof,
      opensDeg: times.opensDeg,
      closesDeg: times.closesDeg,
      durationDeg: times.durationDeg,
      edgeDurationDeg: times.edgeDurationDeg,
      roofTravel: shape.roof,
      wallArea: area,
      streamArea: shape.count * shape.streamCosine * chordArea(shape, open),
    };
  });
}

function scaledTimeAreas(areas: TimeAreas, rpm: number): TimeAreas {
  const scale = areas.rpm / rpm;
  return {
    rpm,
    exhaust: areas.exhaust * scale,
    blowdown: areas.blowdown * scale,
    transfer: areas.transfer * scale,
    exhaustHandbook: areas.exhaustHandbook * scale,
    transferHandbook: areas.transferHandbook * scale,
  };
}

function handbookReport(
  { exhaust }: EngineEvents,
  lengths: PipeLengths,
  at: { readonly rpm: number; readonly gasTemperature: number; readonly speeds: readonly number[] },
): HandbookReport {
  const soundSpeed = handbookSoundSpeed(at.gasTemperature);
  // Blair's length, which goes with this sound speed, runs to the baffle's end.
  const actual = lengths.baffleEnd;
  return {
    gasTemperature: at.gasTemperature,
    soundSpeed,
    durationDeg: exhaust.durationDeg,
    wantedLength: tunedLength(soundSpeed, exhaust.durationDeg, at.rpm),
    wantedLengthJennings: tunedLength(JENNINGS_WAVE_SPEED, exhaust.durationDeg, at.rpm),
    actualLength: actual,
    suitsSpeed: actual === null ? null : tunedSpeed(actual, soundSpeed, exhaust.durationDeg),
    returns: (actual === null ? [] : at.speeds).map((rpm) => {
      const deg = exhaust.opensDeg + returnAngle(actual ?? 0, soundSpeed, rpm);
      return { rpm, deg, lateDeg: deg - exhaust.closesDeg };
    }),
  };
}

function ownWarnings({ run }: Case, events: EngineEvents, lengths: PipeLengths): string[] {
  const warnings: string[] = [];
  const { exhaust, transfers } = events;
  if (transfers.opensDeg <= exhaust.opensDeg) {
    warnings.push('The transfers open before the exhaust: the cylinder blows down into the crankcase.');
  }
  const [first, last] = [run.speeds[0], run.speeds.at(-1)];
  const target = run.targetSpeed;
  if (target !== null && first !== undefined && last !== undefined && (target < first || target > last)) {
    warnings.push(`The target of ${target} rpm lies outside the sweep of ${first} to ${last} rpm.`);
  }
  if (lengths.baffleMiddle === null) warnings.push('The pipe has no baffle: nothing plugs the port.');
  return warnings;
}
