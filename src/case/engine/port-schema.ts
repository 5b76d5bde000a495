/**
 * Port windows as a tuner measures them: width, roof by its distance from the deck or by its timing, height, corners,
 * arch and chamfer; and the discharge coefficients of a port.
 */

import type { Discharge, PortWindow, RoofPosition } from '../../model/port-window.ts';
import { bySort, list } from '../keys/branches.ts';
import { choice, count, quantity, share, text } from '../keys/leaves.ts';
import { namesDiffer } from '../keys/own-names.ts';
import { assumed, optional, record, required, setting, unless } from '../keys/record.ts';
import { checked, type Judge, type Schema } from '../keys/schema.ts';

/** A window as stated: its roof is counted from the deck, and may be raised. */
export interface StatedWindow extends PortWindow {
  /** How far the roof is to be raised above where it was stated to stand [m]. */
  readonly raise: number;
  /** The roof's travel is counted from the deck until the engine's crown height is known. */
  readonly fromDeck: boolean;
  /** The keys that say where the roof stands. */
  readonly roofPath: readonly string[];
}

const radius = quantity('length', { atLeast: '0 mm' });

const corners = bySort<{ readonly top: number; readonly bottom: number }>({
  scalar: checked(radius, (both) => ({ top: both, bottom: both })),
  map: record('corner radii', {
    top: required(radius, 'Radius of the corners at the roof.'),
    bottom: required(radius, 'Radius of the corners at the floor.'),
  }),
});

const chamfer = record('a chamfer', {
  height: required(radius, 'How far the chamfer reaches up the wall from the roof edge.'),
  depth: required(radius, 'How deep it cuts into the wall at the edge.'),
});

const timing = {
  duration: optional(quantity('angle'), 'Crank angle for which the roof is uncovered.'),
  opens: optional(quantity('angle'), 'Crank angle after top dead centre at which the roof is uncovered.'),
};

const ONE_TIMING = { keys: ['duration', 'opens'], needed: true };

const MOST_POINTS = 50;

/** One raise, or a curve over speed. */
const raise = bySort<number | NonNullable<PortWindow['raisedAt']>>({
  scalar: quantity('length'),
  list: checked(
    list(
      record('a point of a moving roof', {
        speed: required(quantity('speed', { atLeast: '100 rpm', atMost: '40000 rpm' }), 'Speed.'),
        raise: required(quantity('length'), 'How far the roof is raised there.'),
      }),
      1,
      MOST_POINTS,
    ),
    (points, judge) => {
      const fall = points.findIndex(({ speed }, k) => k > 0 && speed <= points[k - 1]!.speed);
      return fall < 0
        ? points.map((point) => ({ rpm: point.speed, raise: point.raise }))
        : judge.refuse([fall, 'speed'], 'speeds have to ascend');
    },
  ),
});

const belowDeck = quantity('length');

/** The one thing a file says about where the roof stands. */
type StatedRoof =
  | { readonly roof: number }
  | { readonly duration: number | null; readonly opens: number | null; readonly roof?: never };

const windowKeys = record(
  'a port window',
  {
    name: optional(text(80), 'Name of the window, for tables and for overrides.'),
    count: unless(
      count(1, 12),
      'How many such windows there are around the bore.',
      '1',
      'one window unless stated',
    ),
    width: required(quantity('length', { above: '0 mm' }), 'Width of one window at its widest.'),
    widthAlong: setting(
      choice('chord', 'arc'),
      'How the width was measured: straight across, or along the wall of the bore.',
      'chord',
      'a calliper measures straight across',
    ),
    ...timing,
    roof: optional(
      bySort<StatedRoof>({
        scalar: checked(belowDeck, (roof) => ({ roof })),
        map: record('a roof', timing, [ONE_TIMING]),
      }),
      'Distance of the highest point of the roof below the deck (the top face of the barrel); or { duration } or { opens }, as without "roof".',
    ),
    raise: unless(
      raise,
      'Raises the roof above where the other keys put it, the floor staying where it is; negative lowers it. Or over speed, as a valve in the port does: [{ speed, raise }].',
      '0 mm',
      'the roof stands as stated',
    ),
    height: optional(
      quantity('length', { above: '0 mm' }),
      'Height of the window, from the highest point of its roof down to its floor.',
      'down to the piston crown at bottom dead centre',
      'common practice, no source: most windows end at bottom dead centre',
    ),
    corners: unless(
      corners,
      'Corner radii, one for all or { top, bottom }.',
      '0 mm',
      'sharp corners unless stated',
    ),
    arch: unless(
      radius,
      'Rise of an arched roof from where it springs, at its sides, to its highest point.',
      '0 mm',
      'a flat roof unless stated',
    ),
    chamfer: optional(chamfer, 'Chamfer on the roof edge.', 'none', 'no chamfer unless stated'),
    upAngle: unless(
      quantity('angle', { above: '-90 deg', below: '90 deg' }),
      'Angle of the stream above the horizontal.',
      '0 deg',
      'a level stream unless stated',
    ),
    around: optional(
      quantity('angle', { atLeast: '-180 deg', atMost: '180 deg' }),
      "Position of the window's middle around the bore, from the middle of the exhaust.",
    ),
  },
  [
    {
      keys: ['duration', 'opens', 'roof'],
      needed: true,
      instead: 'raise the roof by the key "raise": raise += 1 mm',
    },
  ],
);

type WindowKeys = NonNullable<ReturnType<typeof windowKeys.read>>;

const window: Schema<StatedWindow> = checked(windowKeys, (keys, judge) => {
  const roof = roofOf(keys, judge);
  const radii = Math.max(keys.corners.top, keys.corners.bottom);
  if (radii > (keys.width / 2) * (1 + 1e-9)) {
    return judge.refuse(['corners'], 'a corner radius is more than half the width of the window');
  }
  if (keys.arch > (keys.width / 2) * (1 + 1e-9)) {
    return judge.refuse(['arch'], 'the roof rises by more than half the width of the window');
  }
  if (roof === undefined) return undefined;
  return {
    name: keys.name ?? '',
    count: keys.count,
    width: keys.width,
    widthMeasure: keys.widthAlong,
    roof,
    fromDeck: roof.by === 'travel',
    roofPath: roofPath(keys),
    raise: typeof keys.raise === 'number' ? keys.raise : 0,
    ...(typeof keys.raise === 'number' ? {} : { raisedAt: keys.raise }),
    height: keys.height,
    cornerTop: keys.corners.top,
    cornerBottom: keys.corners.bottom,
    roofArch: keys.arch,
    chamferHeight: keys.chamfer?.height ?? 0,
    chamferDepth: keys.chamfer?.depth ?? 0,
    upAngleDeg: keys.upAngle,
    aroundDeg: keys.around,
  };
});

function roofOf(keys: WindowKeys, judge: Judge): RoofPosition | undefined {
  if (keys.roof === null) return timedRoof(keys, judge, []);
  if (keys.roof.roof === undefined) return timedRoof(keys.roof, judge, ['roof']);
  return { by: 'travel', travel: keys.roof.roof };
}

function roofPath({ roof, duration }: WindowKeys): readonly string[] {
  if (roof === null) return [duration === null ? 'opens' : 'duration'];
  return roof.roof === undefined ? ['roof', roof.duration === null ? 'opens' : 'duration'] : ['roof'];
}

interface Timing {
  readonly duration: number | null;
  readonly opens: number | null;
}

function timedRoof(
  { duration, opens }: Timing,
  judge: Judge,
  path: readonly string[],
): RoofPosition | undefined {
  const [key, value, most] = duration === null ? ['opens', opens ?? 0, 180] : ['duration', duration, 360];
  const above = duration === null ? value <= 0 : value >= most;
  if (value > 0 && value < most) {
    return duration === null ? { by: 'opening', openingDeg: value } : { by: 'duration', durationDeg: value };
  }
  const what = duration === null ? `that opens at ${round(value)} deg` : `open for ${round(value)} deg`;
  const why = above
    ? 'the roof would stand above the deck and never be covered'
    : 'the window would never open';
  return judge.refuse([...path, String(key)], `a port ${what} is none: ${why}`, `it takes 0 to ${most} deg`);
}

function round(value: number): number {
  return Number(value.toPrecision(6));
}

/** The windows of one port. */
export const windows = checked(list(window, 1, 8), (stated, judge) =>
  namesDiffer(stated, judge, [], 'window') ? stated : undefined,
);

const coefficient = share({ above: '0', atMost: '1' });

const RANGE = 'texts use 0.65 to 0.9, exhaust outflow 0.7 to 0.85 being typical (value from memory)';
const CRACK = 'the coefficient falls as the port opens (Benson 1959)';

/** Discharge coefficients of the exhaust port; `out` is out of the cylinder. */
export const exhaustDischarge: Schema<Discharge> = record('discharge coefficients', {
  outFull: assumed(coefficient, 'Out of the cylinder, port fully open.', '0.75', RANGE),
  outCrack: assumed(coefficient, 'Out of the cylinder, port just open.', '0.85', `${RANGE}; ${CRACK}`),
  inFull: assumed(coefficient, 'Back into the cylinder, port fully open.', '0.7', RANGE),
  inCrack: assumed(coefficient, 'Back into the cylinder, port just open.', '0.8', `${RANGE}; ${CRACK}`),
});

/** Discharge coefficients of the transfer ports with the loss of their passages; `in` is into the cylinder. */
export const transferDischarge: Schema<Discharge> = record('discharge coefficients', {
  outFull: assumed(coefficient, 'Back into the passages, ports fully open.', '0.65', RANGE),
  outCrack: assumed(coefficient, 'Back into the passages, ports just open.', '0.75', `${RANGE}; ${CRACK}`),
  inFull: assumed(coefficient, 'Into the cylinder, ports fully open.', '0.7', RANGE),
  inCrack: assumed(coefficient, 'Into the cylinder, ports just open.', '0.8', `${RANGE}; ${CRACK}`),
});
