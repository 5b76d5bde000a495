/** What spoils the suction while the transfers are open, in words: how high, where it is back, and the way it took. */

import { type Spoiling, spoilingOf } from '../../findings/answers/spoiling.ts';
import type { SweepRow } from '../../findings/row.ts';
import type { EngineNetwork } from '../build.ts';
import type { WhileTransferring } from './while-transferring.ts';

const NAMES: Readonly<Record<Spoiling['source'], string>> = {
  'this cycle': "An answer to this cycle's own pulse",
  'plug-back': 'An echo of the last plug-back',
  'after plug-back': 'An echo of the last cycle, of what ran out again after its plug-back,',
  'last cycle': 'An echo of the last cycle',
  unknown: 'A compression',
};

export function spoilingNotes(engine: EngineNetwork, row: SweepRow, { path }: WhileTransferring): string[] {
  const spoiling = spoilingOf(row);
  if (spoiling === null) return [];
  const { opensDeg } = engine.schedule.events.exhaust;
  const crank = (deg: number): string => (opensDeg + deg).toFixed(0);
  const leaves = path?.out.deg[0] ?? null;
  const turns = path?.back.deg[0] ?? null;
  const does = spoiling.effect === 'ends' ? 'ends the suction early' : 'dents the suction';
  const way =
    leaves === null || turns === null
      ? ''
      : `: traced, it left the port at ${leaves < 0 ? `${crank(leaves + 360)} deg of the cycle before` : `${crank(leaves)} deg`} and turned in the baffle at ${crank(turns)} deg`;
  return [
    `${NAMES[spoiling.source]} is back at ${spoiling.deg.toFixed(0)} deg, while the transfers are open, and ${does} with a rise of ` +
      `${spoiling.rise.toFixed(2)} bar${way}.`,
  ];
}
