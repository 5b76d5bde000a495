/**
 * The handbooks' expansion chamber: how long, and in what proportions.
 *
 * A pressure pulse that leaves the piston's face as the exhaust opens, runs to a reflecting point L away and comes back
 * with one sound speed a all the way, returns 2L/a later. If that is to be one exhaust duration E [deg] at N [rpm],
 *
 *       L = a E / 12 N          = 83.33 a E/N in mm     = E V/N in inches with V in ft/s
 *
 * Jennings (Two-Stroke Tuner's Handbook, 1973) takes V = 1700 ft/s and counts L to the middle of the baffle cone drawn
 * to its point; Blair (Design and Simulation of Two-Stroke Engines, 1996) takes a from a mean gas temperature and counts
 * L to the baffle's end. Neither knows the port, the steepening of the pulse or the gas's real temperature: the formula
 * starts a draft, the simulation judges it.
 */
import type { Engine } from '../model/engine.ts';
import type { Pipe } from '../model/pipe.ts';
import type { Section } from '../model/section.ts';
import { diameterOf } from '../pipe/circle.ts';
import type { PipeProportions } from '../pipe/pipe-proportions.ts';

const INCH = 0.0254;

/** Wave speed of Jennings's formula, 1700 ft/s [m/s]. */
export const JENNINGS_WAVE_SPEED = 1700 * 12 * INCH;

/** Length from piston face to reflecting point [m]. */
export function tunedLength(waveSpeed: number, durationDeg: number, rpm: number): number {
  return (waveSpeed * durationDeg) / (12 * rpm);
}

/** Speed at which a length brings the pulse back after one exhaust duration [rpm]. */
export function tunedSpeed(length: number, waveSpeed: number, durationDeg: number): number {
  return (waveSpeed * durationDeg) / (12 * length);
}

/** Crank angle between exhaust opening and the pulse's return [deg]. */
export function returnAngle(length: number, waveSpeed: number, rpm: number): number {
  return (12 * rpm * length) / waveSpeed;
}

/** Sound speed as Blair's empirical lengths take it, with air's γ = 1.4 and R = 287 J/(kg K) [m/s]. */
export function handbookSoundSpeed(temperature: number): number {
  return Math.sqrt(1.4 * 287 * temperature);
}

/**
 * Brake mean effective pressure that the handbook's temperature is taken for where nobody states one [Pa]: in the column of a
 * sweep, which must not depend on what its reader wishes for, and in `check`.
 */
export const HANDBOOK_BMEP = 10e5;

/**
 * Mean exhaust gas temperature for a brake mean effective pressure [K], between the grades Blair (1996) gives: 350 °C at
 * 5 bar (road), 500 at 8 (enduro), 600 at 9.5 (motocross), 650 at 11 and above (racing).
 */
export function handbookGasTemperature(bmep: number): number {
  const table: readonly (readonly [bar: number, degC: number])[] = [
    [5, 350],
    [8, 500],
    [9.5, 600],
    [11, 650],
  ];
  const bar = bmep / 1e5;
  let [lowBar, lowT] = table[0] as readonly [number, number];
  for (const [highBar, highT] of table) {
    if (bar <= highBar) {
      const share = highBar > lowBar ? Math.max(0, (bar - lowBar) / (highBar - lowBar)) : 0;
      return 273.15 + lowT + share * (highT - lowT);
    }
    [lowBar, lowT] = [highBar, highT];
  }
  return 273.15 + lowT;
}

export interface JenningsPipe {
  readonly tunedLength: number;
  readonly headerLength: number;
  readonly diffuserLength: number;
  readonly bellyLength: number;
  /** Baffle to the stinger's mouth, and drawn on to its point [m]. */
  readonly baffleLength: number;
  readonly baffleToPoint: number;
  readonly stingerLength: number;
  readonly bellyDiameter: number;
  readonly stingerDiameter: number;
}

/**
 * Jennings's worked proportions (1973): header of ten diameters from the piston on, diffuser at 8° included to 6.25
 * times the area, baffle at 20° included, stinger of 0.62 header diameters and twelve of its own long.
 */
export function jenningsPipe(headerDiameter: number, durationDeg: number, rpm: number): JenningsPipe {
  const tan = (includedDeg: number) => Math.tan((includedDeg * Math.PI) / 360);
  const belly = Math.sqrt(6.25) * headerDiameter;
  const stinger = 0.62 * headerDiameter;
  const length = tunedLength(JENNINGS_WAVE_SPEED, durationDeg, rpm);
  const headerLength = 10 * headerDiameter;
  const diffuserLength = (belly - headerDiameter) / 2 / tan(8);
  const baffleToPoint = belly / 2 / tan(20);
  return {
    tunedLength: length,
    headerLength,
    diffuserLength,
    bellyLength: length - baffleToPoint / 2 - headerLength - diffuserLength,
    baffleLength: (belly - stinger) / 2 / tan(20),
    baffleToPoint,
    stingerLength: 12 * stinger,
    bellyDiameter: belly,
    stingerDiameter: stinger,
  };
}

/** What a proposal stands on. */
export interface PipeWish {
  readonly rpm: number;
  readonly durationDeg: number;
  /** Mean gas temperature in the pipe [K]. */
  readonly gasTemperature: number;
  readonly proportions: PipeProportions;
}

/**
 * A pipe in Blair's proportions, sections from the flange on. The exhaust passage is the first part of the header's share
 * of the tuned length; lengths are whole tenths of a millimetre.
 */
export function handbookSections(
  engine: { readonly passage: Pick<Engine['passage'], 'length' | 'exitArea'> },
  wish: PipeWish,
): readonly Section[] {
  const { proportions: p } = wish;
  const total = tunedLength(handbookSoundSpeed(wish.gasTemperature), wish.durationDeg, wish.rpm);
  // EXD: the diameter of a circle as large as the exhaust passage where the pipe begins.
  const port = diameterOf(engine.passage.exitArea);
  const first = p.header * port;
  const belly = p.belly * port;
  const tail = p.stinger * port;
  const whole = p.diffusers.reduce((sum, share) => sum + share, 0);
  const cones: Section[] = [];
  let [left, gone] = [first, 0];
  for (const [i, share] of p.diffusers.entries()) {
    gone += share;
    const right = first * (belly / first) ** ((gone / whole) ** p.hornExponent);
    const name = p.diffusers.length > 1 ? `diffuser ${i + 1}` : 'diffuser';
    cones.push(section(name, 'diffuser', share * total, left, right));
    left = right;
  }
  const header = p.headerShare * total - engine.passage.length;
  // A passage longer than the header's share leaves no header: the first cone then gives what is missing.
  if (header <= 0 && cones[0]) cones[0] = { ...cones[0], length: round(cones[0].length + header) };
  return [
    ...(header > 0 ? [section('header', 'header', header, first, first)] : []),
    ...cones,
    section('belly', 'belly', p.bellyShare * total, belly, belly),
    section('baffle', 'baffle', p.baffleShare * total, belly, tail),
    section('stinger', 'stinger', p.stingerShare * total, tail, tail),
  ];
}

/** The same as a pipe, everything but its sections taken from `like`. */
export function handbookPipe(engine: Engine, wish: PipeWish, like: Pipe): Pipe {
  const name = `handbook pipe, ${wish.proportions.name}, ${Math.round(wish.rpm)} rpm`;
  return { ...like, name, sections: handbookSections(engine, wish) };
}

function round(length: number): number {
  return Math.round(length * 1e4) / 1e4;
}

function section(name: string, role: Section['role'], length: number, left: number, right: number): Section {
  return { name, role, length: round(length), diameter: [round(left), round(right)], step: false };
}
