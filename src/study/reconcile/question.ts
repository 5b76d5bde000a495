/**
 * What was measured, as groups of data whose errors go together, and the speeds at which the engine is computed for it. A
 * trace is read every few degrees.
 */

import type {
  DynoCurve,
  Loose,
  Measured,
  MeasuredPlace,
  PressureTrace,
  Stand,
} from '../../model/measured.ts';
import type { WatchedSpeed } from '../work/observed.ts';
import { FACTOR, type Looseness, OFFSET } from './looseness.ts';
import { thinned } from './thinned.ts';

export type DatumKind = 'torque' | 'pressure' | 'gas' | 'wall';

export interface DataGroup {
  readonly kind: DatumKind;
  readonly name: string;
  /** Speed of a trace [rpm], and where it was taken; null: the group is no trace. */
  readonly rpm: number | null;
  readonly at: MeasuredPlace | null;
  readonly data: readonly Datum[];
  /** What is left free of its measuring: its place among the loose; null: nothing is. */
  readonly loose: number | null;
  /** The factor of a dynamometer [-], or the offset of a trace [deg], where it is known. */
  readonly fixed: number;
}

export interface Datum {
  /** Where it lies: speed [rpm], angle [deg] or distance from the flange [m]. */
  readonly x: number;
  /** Torque [N m], pressure [Pa] or temperature [K]. */
  readonly value: number;
  /** Standard deviation. */
  readonly error: number;
  readonly stand: Stand;
  /** Place of its speed among those that are run; null: the mean over all. */
  readonly speed: number | null;
  /** Its place among what is watched of its kind at that speed. */
  readonly watch: number;
}

export interface Question {
  readonly groups: readonly DataGroup[];
  /** In ascending order. */
  readonly speeds: readonly WatchedSpeed[];
  readonly loose: readonly Looseness[];
}

/** Speeds this close together are one [rpm]. */
const SAME = 20;
/** Degrees from one datum of a trace to the next. */
export const DATUM_STEP_DEG = 4;
/** Where only walls are known, without a speed, and the case names no target [rpm]. */
const USUAL_SPEED = 10_000;

/** Where a trace lies best on the prediction at its speed, by that speed's place among those that are run [deg]. */
export type OffsetOf = (trace: PressureTrace, speed: number) => number;

export function questionOf(files: readonly Measured[], target: number | null, offsetOf: OffsetOf): Question {
  const speeds = watchedSpeeds(files, target);
  const loose: Looseness[] = [];
  const groups = files.flatMap((file) => {
    const name = (what: string): string => (files.length > 1 ? `${what}, ${file.name}` : what);
    return [
      ...(file.dyno === null ? [] : [torqueGroup(file.dyno, name('torque'), { speeds, loose })]),
      ...file.traces.map((one) => traceGroup(one, name('pressure'), { speeds, loose, offsetOf })),
      ...spotGroup('gas', file.gasTemperatures, name('gas temperature'), speeds),
      ...spotGroup('wall', file.walls, name('wall temperature'), speeds),
    ];
  });
  return { groups, speeds, loose };
}

/** Speeds of all that was measured, each with what is watched there. */
function watchedSpeeds(files: readonly Measured[], target: number | null): readonly WatchedSpeed[] {
  const wanted = files.flatMap(({ dyno, traces, gasTemperatures, walls }) => [
    ...thinned(dyno?.points ?? []).map(({ rpm }) => rpm),
    ...[...traces, ...gasTemperatures, ...walls].flatMap(({ rpm }) => rpm ?? []),
  ]);
  const ascending = (wanted.length === 0 ? [target ?? USUAL_SPEED] : wanted).toSorted((a, b) => a - b);
  const distinct: number[] = [];
  for (const rpm of ascending) if (rpm - (distinct.at(-1) ?? 0) > SAME) distinct.push(rpm);
  return distinct.map((rpm) => ({
    rpm,
    pressures: files.flatMap(({ traces }) => traces.flatMap((one) => (isSame(one.rpm, rpm) ? one.at : []))),
    gas: placesOf(files.flatMap(({ gasTemperatures }) => gasTemperatures)),
    walls: placesOf(files.flatMap(({ walls }) => walls)),
  }));
}

/** Whether a speed is the one that is run for it: the lowest of those close together. */
const isSame = (rpm: number, run: number): boolean => rpm >= run && rpm - run <= SAME;

const placesOf = (spots: readonly { readonly at: number }[]): readonly number[] => [
  ...new Set(spots.map(({ at }) => at)),
];

const placeOf = (speeds: readonly WatchedSpeed[], rpm: number): number =>
  speeds.reduce(
    (best, one, k) => (Math.abs(one.rpm - rpm) < Math.abs(speeds[best]!.rpm - rpm) ? k : best),
    0,
  );

interface Gathering {
  readonly speeds: readonly WatchedSpeed[];
  readonly loose: Looseness[];
}

/** Enters what is left free; null: nothing is. */
function entered(
  loose: Looseness[],
  stated: Loose,
  one: Omit<Looseness, 'range'>,
  usual: () => Looseness['range'],
): number | null {
  if (stated.kind === 'known') return null;
  return loose.push({ ...one, range: stated.range ?? usual() }) - 1;
}

function torqueGroup({ points, factor }: DynoCurve, name: string, { speeds, loose }: Gathering): DataGroup {
  const reason = 'what a dynamometer shows over what the crankshaft gives; common practice, no source';
  return {
    kind: 'torque',
    name,
    rpm: null,
    at: null,
    data: thinned(points).map(({ rpm, torque, error, ...stand }) => ({
      x: rpm,
      value: torque,
      error,
      stand,
      speed: placeOf(speeds, rpm),
      watch: 0,
    })),
    loose: entered(loose, factor, { name: `factor of ${name}`, unit: '', reason }, () => FACTOR),
    fixed: factor.kind === 'known' ? factor.value : 1,
  };
}

function traceGroup(
  trace: PressureTrace,
  name: string,
  { speeds, loose, offsetOf }: Gathering & { readonly offsetOf: OffsetOf },
): DataGroup {
  const { at, rpm, offset, error, stand } = trace;
  const speed = placeOf(speeds, rpm);
  const every = DATUM_STEP_DEG / trace.stepDeg;
  const reason = 'about where the trace lies best on the prediction';
  const usual = (): Looseness['range'] => [offsetOf(trace, speed) - OFFSET, offsetOf(trace, speed) + OFFSET];
  return {
    kind: 'pressure',
    name: `${name}, ${placeName(at)}, ${rpm} rpm`,
    rpm,
    at,
    data: trace.pressure.flatMap((value, k) =>
      k % every !== 0
        ? []
        : { x: k * trace.stepDeg, value, error, stand, speed, watch: speeds[speed]!.pressures.indexOf(at) },
    ),
    loose: entered(
      loose,
      offset,
      { name: `offset of ${placeName(at)}, ${rpm} rpm`, unit: 'deg', reason },
      usual,
    ),
    fixed: offset.kind === 'known' ? offset.value : 0,
  };
}

export const placeName = (at: MeasuredPlace): string =>
  typeof at === 'string' ? at : `${Math.round(1000 * at)} mm from the flange`;

function spotGroup(
  kind: 'gas' | 'wall',
  spots: Measured['walls'],
  name: string,
  speeds: readonly WatchedSpeed[],
): readonly DataGroup[] {
  if (spots.length === 0) return [];
  const data = spots.map(({ at, rpm, value, error, stand }) => ({
    x: at,
    value,
    error,
    stand,
    speed: rpm === null ? null : placeOf(speeds, rpm),
    watch: (kind === 'gas' ? speeds[0]!.gas : speeds[0]!.walls).indexOf(at),
  }));
  return [{ kind, name, rpm: null, at: null, data, loose: null, fixed: 0 }];
}
