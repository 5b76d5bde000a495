/** The port events of a row, for its crank axes. */

import type { SweepRow } from '../../src/findings/row.ts';
import type { PortEvents } from '../theme/events.ts';

export const eventsOf = (row: SweepRow): PortEvents => ({
  exhaustOpens: row.exhaust_opens_deg,
  transfersOpen: row.transfers_open_deg,
  transfersClose: row.transfers_close_deg,
  exhaustCloses: row.exhaust_closes_deg,
});
