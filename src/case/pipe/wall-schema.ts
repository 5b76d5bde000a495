/**
 * Temperature of the pipe's wall: given as one number, at places from the flange on or at both ends, straight between; or found from
 * a heat balance. Left out, it is assumed at both ends.
 */

import type { WallTemperature } from '../../model/pipe.ts';
import { bySort, list, variant } from '../keys/branches.ts';
import { quantity, share } from '../keys/leaves.ts';
import { assumed, record, required } from '../keys/record.ts';
import { checked, type Judge, note, type Schema, within } from '../keys/schema.ts';
import { writeQuantity } from '../text/units.ts';

const wallTemperature = quantity('temperature', { above: '0 K', below: '2000 K' });

type Point = Extract<WallTemperature, { by: 'given' }>['at'][number];
/** The end is where the pipe ends, which its sections say. */
type Given = readonly (Point | { readonly position: 'end'; readonly temperature: number })[];

const USUAL_WALL = { flange: '450 degC', end: '200 degC' } as const;
const WALL_REASON =
  'racing pipes run 200 to 450 degC, the header hottest (value from memory); falls evenly along the pipe';

const anyGiven = bySort<Given>({
  scalar: checked(wallTemperature, (temperature) => [{ position: 0, temperature }]),
  list: list(
    checked(
      record('a wall temperature', {
        at: required(quantity('length', { atLeast: '0 mm' }), 'Distance from the flange along the axis.'),
        temperature: required(wallTemperature, 'Temperature of the wall there.'),
      }),
      ({ at, temperature }) => ({ position: at, temperature }),
    ),
    1,
    50,
  ),
  map: checked(
    record('wall temperatures at the ends of the pipe', {
      flange: assumed(
        wallTemperature,
        'Temperature of the wall at the flange.',
        USUAL_WALL.flange,
        WALL_REASON,
      ),
      end: assumed(
        wallTemperature,
        'Temperature of the wall at the end of the pipe.',
        USUAL_WALL.end,
        WALL_REASON,
      ),
    }),
    ({ flange, end }): Given => [
      { position: 0, temperature: flange },
      { position: 'end', temperature: end },
    ],
  ),
});

/** The word alone says too little. */
const given: Schema<Given> = { ...anyGiven, lone: false };

const balance = record('a heat balance of the wall', {
  emissivity: assumed(
    share({ above: '0', atMost: '1' }),
    'Emissivity of the outside.',
    '0.8',
    'oxidised steel; value from memory',
  ),
  outsideCoefficient: assumed(
    quantity('heatTransfer', { atLeast: '0 W/(m2 K)' }),
    'Heat transfer coefficient to the air outside.',
    '60 W/(m2 K)',
    'a pipe in the air stream of a moving machine; common practice, no source',
  ),
});

type Balance = Extract<WallTemperature, { by: 'balance' }>;

type Stated = Balance | { readonly by: 'given'; readonly at: Given };

export const wall = variant<Stated>('a wall temperature', {
  given: checked(given, (at) => ({ by: 'given', at })),
  balance: checked(balance, (keys) => ({ by: 'balance', ...keys })),
});

/** The wall along a pipe of a length [m]. */
export function wallOf(stated: Stated | null, length: number, judge: Judge): WallTemperature | undefined {
  if (stated === null) return usualWall(length, judge);
  if (stated.by === 'balance') return stated;
  const at = stated.at.map(({ position, temperature }) => ({
    position: position === 'end' ? length : position,
    temperature,
  }));
  return positionsFit(at, length, judge) ? { by: 'given', at } : undefined;
}

function positionsFit(at: readonly Point[], length: number, judge: Judge): boolean {
  for (const [index, { position }] of at.entries()) {
    const before = at[index - 1]?.position ?? -1;
    if (position <= before) {
      judge.refuse(['wall', 'given', index, 'at'], 'positions have to grow along the pipe');
      return false;
    }
    if (position > length + 1e-9) {
      judge.refuse(
        ['wall', 'given', index, 'at'],
        `lies beyond the end of the pipe at ${writeQuantity(length, 'length', 'mm', 6)}`,
      );
      return false;
    }
  }
  return true;
}

/** Hottest at the flange, falling evenly to the end. */
function usualWall(length: number, judge: Judge): WallTemperature {
  note(
    { ...within(judge.at, 'wall'), assuming: { reason: WALL_REASON, sort: 'quantity' } },
    `${USUAL_WALL.flange} at the flange to ${USUAL_WALL.end} at the end`,
  );
  return {
    by: 'given',
    at: [
      { position: 0, temperature: 723.15 },
      { position: length, temperature: 473.15 },
    ],
  };
}
