// How many members of the demo's bands this machine sweeps in a minute, on all its threads: every speed of the case, on 10 mm cells.

import { mkdtempSync, rmSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { caseOf, openFile } from '../../dist/src/case/load.js';
import { computedMembers } from '../../dist/src/study/ensemble/computed-members.js';
import { planEnsemble } from '../../dist/src/study/ensemble/plan-ensemble.js';
import { openPool } from '../../dist/src/study/work/pool.js';

const MEMBERS_PER_THREAD = 3;

export async function memberSweepsPerMinute(demo) {
  const threads = availableParallelism();
  const count = MEMBERS_PER_THREAD * threads;
  const opened = openFile(demo);
  const { speeds } = caseOf(opened, []).run;
  const { drafts } = planEnsemble([{ name: 'bench', opened, set: [], speeds }], { count });
  const folder = mkdtempSync(join(tmpdir(), 'echocone-members-'));
  const pool = openPool(threads);
  const start = process.hrtime.bigint();
  try {
    await computedMembers(
      { kind: 'bands', name: 'bench', program: 'bench', cell: 0.01, drafts },
      {
        pool,
        path: join(folder, 'journal.jsonl'),
        replace: false,
        signal: new AbortController().signal,
        message: () => {},
        warn: (text) => process.stderr.write(`${text}\n`),
        lenders: () => '',
        progress: () => ({ advance: () => {}, finish: () => {} }),
      },
    );
    return (60 * count) / (Number(process.hrtime.bigint() - start) / 1e9);
  } finally {
    await pool.close();
    rmSync(folder, { recursive: true, force: true });
  }
}
