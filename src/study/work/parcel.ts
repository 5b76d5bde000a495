/** A piece of a study as it is sent to a lender: plain data, with a case that names no file. */

import type { SentCase } from '../../case/sent-case.ts';
import type { ObservedJob } from './observed.ts';

export interface Parcel extends SentCase {
  readonly kind: 'draft' | 'speed-group' | 'observed';
  readonly program: string;
  /** Name of the piece in the study. */
  readonly draft: string;
  /** Speeds of the case's run, and those of this piece [rpm]. */
  readonly runSpeeds: readonly number[];
  readonly speeds: readonly number[];
  /** Cell length [m]. */
  readonly cell: number;
  /** Exhaust duration in place of the case's [deg]; null: as it is. */
  readonly durationDeg: number | null;
  /** What gauges look at and from which fields, of a piece that is observed. */
  readonly watch?: Omit<ObservedJob, 'subject'>;
}
