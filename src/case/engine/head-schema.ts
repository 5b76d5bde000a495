/** The keys of a head with a squish band: what `check` needs to say how fast the charge leaves the gap. */

import type { Head } from '../../model/engine.ts';
import { areaOf } from '../../pipe/circle.ts';
import { quantity } from '../keys/leaves.ts';
import { optional, record, required } from '../keys/record.ts';
import type { Judge } from '../keys/schema.ts';
import { writeQuantity } from '../text/units.ts';

export const head = record(
  'a head with a squish band',
  {
    squishClearance: required(
      quantity('length', { above: '0 mm', atMost: '10 mm' }),
      'Gap between crown and band at top dead centre, as soft solder is pressed to.',
    ),
    squishArea: optional(
      quantity('area', { above: '0 mm2' }),
      'Area of the band, the outer ring of the head.',
    ),
    squishWidth: optional(
      quantity('length', { above: '0 mm' }),
      'Width of the band from the wall of the bore inwards.',
    ),
    volume: optional(
      quantity('volume', { above: '0 cc' }),
      'Volume above the crown at top dead centre, as measured; by the compression ratio unless stated.',
    ),
  },
  [{ keys: ['squishArea', 'squishWidth'], needed: true }],
);

type HeadKeys = NonNullable<ReturnType<typeof head.read>>;

/** How far a stated volume may be off the compression's before it is told [-]. */
const AGREES = 0.03;

/** The head of an engine with a bore [m] whose compression leaves a clearance volume [m3]; undefined: it was refused. */
export function headOf(keys: HeadKeys, bore: number, clearance: number, judge: Judge): Head | undefined {
  const { squishClearance, squishArea, squishWidth, volume } = keys;
  const piston = areaOf(bore);
  const key = squishArea === null ? 'squishWidth' : 'squishArea';
  const inner = squishWidth === null ? 0 : bore - 2 * squishWidth;
  if ((squishWidth !== null && inner <= 0) || (squishArea ?? 0) >= piston)
    return judge.refuse(['head', key], 'the band leaves no bowl: it is as wide as the bore');
  const room = volume ?? clearance;
  if (room <= piston * squishClearance)
    return judge.refuse(
      ['head', 'squishClearance'],
      `the gap alone holds ${cc(piston * squishClearance)} under the whole bore, the head ${cc(room)}: nothing is left for a bowl`,
    );
  if (volume !== null && Math.abs(volume / clearance - 1) > AGREES)
    judge.warn(
      `The head's volume of ${cc(volume)} is not that of the compression ratio, ${cc(clearance)}: the sweep goes by the ratio, the squish velocity by the volume.`,
    );
  return { squishClearance, squishArea: squishArea ?? piston - areaOf(inner), volume };
}

const cc = (value: number): string => writeQuantity(value, 'volume', 'cc', 4);
