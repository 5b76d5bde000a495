/** Where the middle of a wave comes, in words that the answer, the player and the terminal share. */

import { landing, middleAfterTransfers, middleLead } from '../../src/findings/landing.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { degrees, percent } from '../theme/numbers.ts';

/** To follow "the middle of the wave" or "its middle". */
export function middleWords(row: SweepRow): string {
  const lead = middleLead(row);
  const after = middleAfterTransfers(row);
  if (lead === null || after === null) return 'is not to be found';
  if (after < 0)
    return after > -1
      ? 'is back just before the transfers close'
      : `is back ${degrees(-after)} before the transfers close`;
  const share = percent(row.plugback_share_before_closing);
  if (Math.abs(lead) < 1) return `comes as the exhaust closes; ${share} of the wave has arrived by then`;
  if (lead < 0)
    return `comes ${degrees(-lead)} after the exhaust has closed; ${share} of the wave had arrived by then`;
  const only = landing(row) === 'lands' ? '' : 'only ';
  return `lands ${degrees(lead)} before the exhaust closes; ${only}${share} of the wave has arrived by then`;
}

/** The whole sentence of one speed. */
export function landingSentence(row: SweepRow): string {
  const kind = landing(row);
  if (kind === 'none') return 'The wave is not to be found.';
  const how = { lands: 'lands as wanted', early: 'is back too early', late: 'comes too late' }[kind];
  return `The wave ${how}: its middle ${middleWords(row)}.`;
}
