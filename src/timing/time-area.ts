/**
 * Time-area: how much opening a port offers for how long, over the cylinder it has to serve.
 *
 * Specific time-area A_σ = (1/V_s) ∫ A dt = (1/V_s) ∫ A dθ / 6N [s/m], with θ in degrees and N in rpm. For the exhaust's
 * blowdown from exhaust opening to transfer opening, for the totals from opening to closing. The integral is taken by
 * Gauss's rule between the angles at which any outline has a corner or an arc's end, so that it sees only smooth pieces.
 *
 * The handbook figure (Jennings, Two-Stroke Tuner's Handbook, 1973) is time open × area at the crank angle midway through
 * the opening ÷ displacement, in s·cm²/cm³ = s/cm; it over-reads by some 12 % and is only comparable with itself.
 */
import type { Crank } from './crank.ts';
import { crankAnglesAtTravel, pistonTravel } from './crank.ts';
import type { PortEvents } from './events.ts';
import { gauss } from './gauss.ts';
import { streamArea } from './stream-area.ts';
import type { WindowShape } from './window.ts';
import { firstOpening, windowArea } from './window.ts';

/** Open area of all a port's windows at a crank angle, on the wall [m2]. */
export function portArea(crank: Crank, port: PortEvents, deg: number): number {
  const travel = pistonTravel(crank, deg);
  return port.windows.reduce((sum, { shape }) => sum + windowArea(shape, travel), 0);
}

/** The same along the windows' streams [m2]. */
export function portStreamArea(crank: Crank, port: PortEvents, deg: number): number {
  const travel = pistonTravel(crank, deg);
  return port.windows.reduce((sum, { shape }) => sum + streamArea(shape, travel), 0);
}

/** Angles at which an open area has a kink [deg]. */
function kinks(crank: Crank, port: PortEvents): number[] {
  const depths = (s: WindowShape) => [
    0,
    s.archEnd,
    s.sideStart,
    s.floor - s.roof - s.cornerBottom,
    s.floor - s.roof,
  ];
  const travels = port.windows.flatMap(({ shape: s }) => [
    firstOpening(s),
    ...depths(s).flatMap((d) => [s.roof + d, s.roof + d - s.chamferHeight]),
    s.roof + (s.chamferHeight * s.chamferSine) / (1 - s.chamferSine),
  ]);
  return travels
    .filter((travel) => travel >= 0 && travel <= crank.stroke)
    .flatMap((travel) => {
      const { downDeg, upDeg } = crankAnglesAtTravel(crank, travel);
      return [downDeg, upDeg];
    });
}

/** ∫ A dθ of a port between two crank angles of one turn [m2 deg]. */
export function angleArea(crank: Crank, port: PortEvents, fromDeg: number, toDeg: number): number {
  const inside = kinks(crank, port).filter((deg) => deg > fromDeg && deg < toDeg);
  const ends = [fromDeg, ...inside.sort((a, b) => a - b), toDeg];
  let sum = 0;
  for (let i = 1; i < ends.length; i++) {
    const [from, to] = [ends[i - 1]!, ends[i]!];
    // A rounded roof opens as the 3/2 power of the depth: short pieces near its ends keep the rule accurate.
    const pieces = Math.max(4, Math.ceil((to - from) / 2));
    const drawn = (t: number) => from + (to - from) * t * t * (3 - 2 * t);
    for (let k = 0; k < pieces; k++) {
      sum += gauss((deg) => portArea(crank, port, deg), drawn(k / pieces), drawn((k + 1) / pieces));
    }
  }
  return sum;
}

export interface TimeAreas {
  readonly rpm: number;
  /** Specific time-areas [s/m]. */
  readonly exhaust: number;
  readonly blowdown: number;
  readonly transfer: number;
  /** Handbook figures, time open × area at mid angle ÷ displacement [s/m]; 1e-4 s/cm is 0.01 s/m. */
  readonly exhaustHandbook: number;
  readonly transferHandbook: number;
}

/** Specific time-areas of an engine's ports at a speed. */
export function timeAreas(
  events: { readonly crank: Crank; readonly exhaust: PortEvents; readonly transfers: PortEvents },
  displacement: number,
  rpm: number,
): TimeAreas {
  const { crank, exhaust, transfers } = events;
  const scale = 1 / (6 * rpm * displacement);
  const whole = (port: PortEvents) => scale * angleArea(crank, port, port.opensDeg, port.closesDeg);
  return {
    rpm,
    exhaust: whole(exhaust),
    blowdown: scale * blowdownAngleArea(events),
    transfer: whole(transfers),
    exhaustHandbook: scale * exhaust.durationDeg * midAngleArea(crank, exhaust),
    transferHandbook: scale * transfers.durationDeg * midAngleArea(crank, transfers),
  };
}

/** ∫ A dθ of the exhaust before the transfers open [m2 deg]. */
export function blowdownAngleArea(events: {
  readonly crank: Crank;
  readonly exhaust: PortEvents;
  readonly transfers: PortEvents;
}): number {
  const { crank, exhaust, transfers } = events;
  if (transfers.opensDeg <= exhaust.opensDeg) return 0;
  return angleArea(crank, exhaust, exhaust.opensDeg, transfers.opensDeg);
}

/** Area at the crank angle midway between opening and bottom dead centre [m2]. */
export function midAngleArea(crank: Crank, port: PortEvents): number {
  return portArea(crank, port, (port.opensDeg + crank.bottomDeg) / 2);
}

/**
 * Specific time-areas that a brake mean effective pressure wants [s/m], straight-line fits in bar after Blair, Design and
 * Simulation of Two-Stroke Engines (1996) ch. 6: value from memory, unverified. No fit for the exhaust's total is known
 * here.
 */
export function timeAreasWanted(bmep: number): {
  readonly blowdown: number;
  readonly transfer: number;
  readonly inlet: number;
} {
  const bar = bmep / 1e5;
  return {
    blowdown: Math.max(0, (bar - 1.81) / 8187),
    transfer: (bar + 2.587) / 1128,
    inlet: (bar + 1.528) / 774,
  };
}

/** Brake mean effective pressure that a blowdown or transfer time-area could serve by the same fits [Pa]. */
export function bmepServed(areas: { readonly blowdown: number; readonly transfer: number }): {
  readonly blowdown: number;
  readonly transfer: number;
} {
  return {
    blowdown: (areas.blowdown * 8187 + 1.81) * 1e5,
    transfer: (areas.transfer * 1128 - 2.587) * 1e5,
  };
}
