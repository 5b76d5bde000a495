/** Holes, steps and jumps of the torque curve in words: where, how deep, beside which crest, and why. */

import type { Spoiling } from '../../src/findings/answers/spoiling.ts';
import type { Hole, HoleReason } from '../../src/findings/answers/torque-holes.ts';
import { bar, degrees, fixed, percent, rpm } from '../theme/numbers.ts';

const names: Readonly<Record<Spoiling['source'], string>> = {
  'this cycle': 'an answer to its own pulse',
  'plug-back': 'an echo of the last plug-back',
  'after plug-back': 'an echo of what ran out after the last plug-back',
  'last cycle': 'an echo of the last cycle',
  unknown: 'a compression',
};

export function reasonWords(reason: HoleReason): string {
  switch (reason.kind) {
    case 'not settled':
      return 'the speed has not settled';
    case 'spoiled': {
      const { source, deg, effect } = reason.by;
      return `${names[source]} is back at ${degrees(deg)}, while the transfers are open, and ${effect === 'ends' ? 'ends the suction early' : 'dents the suction'}`;
    }
    case 'port':
      return `the pipe draws less: the port stands at ${bar(reason.bar)} while the transfers are open, there at ${fixed(reason.against, 2)}`;
    case 'intake':
      return `the crankcase sends up less, ${fixed(reason.delivery, 2)} of the displacement, there ${fixed(reason.against, 2)}, and not for want of suction: look at the intake`;
    case 'wave':
      return `less is kept: the wave comes ${degrees(reason.by)} ${reason.way} than there`;
    case 'trapping':
      return `less is kept, ${percent(reason.trapping)}, there ${percent(reason.against)}, though the wave comes alike`;
    case 'residual':
      return `more burnt gas is left: ${percent(reason.fresh)} of the charge is fresh, there ${percent(reason.against)}`;
    case 'unknown':
      return 'nothing in its gas exchange says why: look at its wave diagram';
  }
}

/** Holes that are told: the deepest. */
const TOLD = 3;

export const holesText = (holes: readonly Hole[]): string =>
  [...holes]
    .sort((a, b) => b.depth - a.depth)
    .slice(0, TOLD)
    .sort((a, b) => a.rpm - b.rpm)
    .map(holeText)
    .join(' ');

function holeText({ kind, rpm: at, crestRpm, depth, reason }: Hole): string {
  const below = `${percent(depth)} below ${kind === 'hole' ? 'the crest at ' : ''}${rpm(crestRpm)}`;
  const why = reasonWords(reason);
  if (kind === 'jump')
    return `At ${rpm(at)} a jump, ${below}, though the wave stands still: ${why}. Believe that it changes thereabouts, not how sharply.`;
  const what = kind === 'hole' ? 'a hole,' : crestRpm < at ? 'a fall,' : 'a weak side,';
  return `At ${rpm(at)} ${what} ${below}: ${why}.`;
}
