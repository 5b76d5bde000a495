/** What a sweep leaves: rows, and a record for each speed. Plain data; the JSON file is this object. */

import type { OutlineSection, SpeedRecord } from '../../findings/record.ts';
import type { SweepRow } from '../../findings/row.ts';
import type { Case } from '../../model/case.ts';

export interface SweepResult {
  readonly schemaVersion: 1;
  readonly kind: 'sweep';
  readonly program: string;
  readonly case: Case;
  readonly outline: readonly OutlineSection[];
  readonly displacement: number;
  readonly rows: readonly SweepRow[];
  readonly speeds: readonly SpeedRecord[];
  /** Speeds that failed, with the reason. */
  readonly failures: readonly { readonly speedRpm: number; readonly reason: string }[];
}
