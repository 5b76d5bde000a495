/** What spoils the suction while the transfers are open, in words: how high, where it is back, and the way it took. */

import type { PlugBack } from '../../findings/plug-back.ts';
import type { EngineNetwork } from '../build.ts';
import type { MeanCycle } from './mean-cycle.ts';
import type { WhileTransferring } from './while-transferring.ts';

export function spoilingOf(
  engine: EngineNetwork,
  { plugBack }: MeanCycle,
  { compression, effect, path }: WhileTransferring,
): string[] {
  if (compression === null || effect === 'nothing') return [];
  const { opensDeg } = engine.schedule.events.exhaust;
  const crank = (deg: number): string => (opensDeg + deg).toFixed(0);
  const leaves = path?.out.deg[0] ?? null;
  const turns = path?.back.deg[0] ?? null;
  const what = leaves === null ? 'A compression' : nameOf(leaves, plugBack);
  const does = effect === 'ends' ? 'ends the suction early' : 'dents the suction';
  const way =
    leaves === null || turns === null
      ? ''
      : `: traced, it left the port at ${leaves < 0 ? `${crank(leaves + 360)} deg of the cycle before` : `${crank(leaves)} deg`} and turned in the baffle at ${crank(turns)} deg`;
  return [
    `${what} is back at ${crank(compression.deg)} deg, while the transfers are open, and ${does} with a rise of ` +
      `${(compression.rise / 1e5).toFixed(2)} bar${way}.`,
  ];
}

/** A wave that left before this opening is an echo of the cycle before: of its plug-back, or of what ran out after that. */
function nameOf(leaves: number, { onsetDeg, endDeg }: PlugBack): string {
  if (leaves >= 0) return "An answer to this cycle's own pulse";
  if (onsetDeg === null || endDeg === null || leaves < onsetDeg - 360) return 'An echo of the last cycle';
  return leaves <= endDeg - 360
    ? 'An echo of the last plug-back'
    : 'An echo of the last cycle, of what ran out again after its plug-back,';
}
