/** One draft of a study of many: its speeds one after another on one thread, and of each only the row. */

import type { SweepRow } from '../../findings/row.ts';
import type { Case } from '../../model/case.ts';
import { runGroup } from './run-sweep.ts';

export interface DraftJob {
  /** Name of the draft in the journal. */
  readonly draft: string;
  readonly subject: Case;
}

/** What a journal keeps of a draft. */
export type DraftResult =
  | { readonly ok: true; readonly rows: readonly SweepRow[] }
  | { readonly ok: false; readonly reason: string };

export function runDraft({ subject }: DraftJob): DraftResult {
  const { records, failures } = runGroup({ subject, speeds: subject.run.speeds, brief: true });
  const [failed] = failures;
  if (failed !== undefined) return { ok: false, reason: `${failed.speedRpm} rpm: ${failed.reason}` };
  return { ok: true, rows: records.map((record) => record.row) };
}
