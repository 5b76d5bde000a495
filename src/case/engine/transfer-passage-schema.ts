/**
 * The passages from the crankcase to the transfer windows: length and areas of all together, and whether they are one lump
 * behind the windows or ducts. Three areas belong together, of which two say all: the column of a round taper moves as one
 * of the area sqrt(A1 A2) does, since the integral of dx/A over it is L/sqrt(A1 A2) (derived here).
 */

import type { Engine } from '../../model/engine.ts';
import { passagesVolume } from '../../pipe/transfer-passages.ts';
import { choice, flag, quantity } from '../keys/leaves.ts';
import { assumed, optional, record, setting } from '../keys/record.ts';
import type { Judge } from '../keys/schema.ts';
import { writeQuantity } from '../text/units.ts';

/** Mean area of the passages over that of their windows when it is not stated [-]. */
const PASSAGE_OVER_WINDOWS = 1.3;
/** Share of the crankcase that its passages hold at most [-]. */
const MOST_OF_CRANKCASE = 0.7;
const PATH = ['transfers', 'passage'] as const;

const area = quantity('area', { above: '0 mm2' });

export const transferPassage = record('the transfer passages', {
  length: assumed(
    quantity('length', { above: '0 mm', below: '2 m' }),
    'Length of a passage from the crankcase to its window.',
    '90 mm',
    'common practice, no source',
  ),
  area: optional(area, 'Mean flow area of all passages together.'),
  entryArea: optional(area, 'Area of all passages together where they leave the crankcase.'),
  exitArea: optional(area, 'The same just before the windows.'),
  inertia: setting(
    flag,
    'Whether the inertia of the gas in lumped passages counts; in ducts it always does.',
    'false',
    'quasi-steady passages are the simpler model',
  ),
  as: setting(
    choice('lumped', 'duct'),
    'What the passages are: lumped into their windows, or ducts, which keep what was blown back into them and give it back first.',
    'lumped',
    'the areas of the passages are seldom known; DEVELOPERS says how far the two differ',
  ),
});

type PassageKeys = NonNullable<ReturnType<typeof transferPassage.read>>;
type Passage = Engine['transfers']['passage'];

/** How an assumption of this engine is noted: path, value, reason. */
export type Assume = (path: readonly string[], value: string, reason: string) => void;

/** The passages with all their areas, from those stated and the windows' [m2]; undefined: they contradict one another. */
export function passageOf(
  keys: PassageKeys,
  windows: number,
  judge: Judge,
  assume: Assume,
): Passage | undefined {
  const { length, inertia, as } = keys;
  const { area: stated, entryArea: entry, exitArea: exit } = keys;
  if (entry !== null && exit !== null) {
    if (stated !== null)
      return judge.refuse(
        [...PATH, 'area'],
        'the mean area follows from entryArea and exitArea; leave one of the three out',
      );
    return { length, inertia, as, area: Math.sqrt(entry * exit), entryArea: entry, exitArea: exit };
  }
  const note = (key: string, value: number, reason: string): void =>
    assume([...PATH, key], writeQuantity(value, 'area', 'mm2', 5), reason);
  const mean = stated ?? PASSAGE_OVER_WINDOWS * windows;
  if (stated === null)
    note(
      'area',
      mean,
      `${PASSAGE_OVER_WINDOWS} times the area of the windows: passages narrow towards them; common practice, no source`,
    );
  const exitArea = exit ?? (entry === null ? windows : (mean * mean) / entry);
  const entryArea = entry ?? (mean * mean) / exitArea;
  if (as === 'duct') {
    if (exit === null && entry === null)
      note('exitArea', exitArea, 'the area of the windows, down to the piston at bottom dead centre');
    else if (exit === null) note('exitArea', exitArea, 'with entryArea it makes the mean area');
    if (entry === null) note('entryArea', entryArea, 'with exitArea it makes the mean area');
  }
  return { length, inertia, as, area: mean, entryArea, exitArea };
}

/** Whether ducts leave room in the crankcase, whose volume includes them. */
export function passagesFit({ transfers, crankcase }: Engine, judge: Judge): boolean {
  if (transfers.passage.as === 'lumped') return true;
  const held = passagesVolume(transfers.passage);
  if (held <= MOST_OF_CRANKCASE * crankcase.volume) return true;
  const cc = (volume: number): string => writeQuantity(volume, 'volume', 'cc', 4);
  judge.refuse(
    [...PATH, 'as'],
    `passages of ${cc(held)} leave too little of a crankcase of ${cc(crankcase.volume)}, which includes them`,
    `at most ${MOST_OF_CRANKCASE} of it`,
  );
  return false;
}
