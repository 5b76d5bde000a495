/** Where a speed lies beyond what a fit of the burn was made for, so that its output is less to be trusted. */

import type { SweepRow } from '../../findings/row.ts';
import { LEAST_EFFICIENCY, MOST_RESIDUAL } from '../../timing/residual.ts';
import type { EngineNetwork } from '../build.ts';

const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;

/** What to say of a row whose charge burnt beyond the fits' ranges; nothing where residual gas was not to count. */
export function beyondFits(
  { subject }: EngineNetwork,
  { scavenging_efficiency: fresh }: Pick<SweepRow, 'scavenging_efficiency'>,
): string[] {
  if (subject.engine.combustion.residualAtDuration === null || fresh === null) return [];
  const notes: string[] = [];
  if (1 - fresh > MOST_RESIDUAL)
    notes.push(
      `${percent(1 - fresh)} of the trapped charge is residual gas: how it slows the burn was measured up to 20 % and ` +
        `is not followed beyond ${percent(MOST_RESIDUAL)}, so torque here is doubtful.`,
    );
  if (fresh < LEAST_EFFICIENCY)
    notes.push(
      `Only ${percent(fresh)} of the trapped charge is fresh: the share of its heat that is released was fitted ` +
        `from ${percent(LEAST_EFFICIENCY)} on, so such a charge may not burn at all.`,
    );
  return notes;
}
