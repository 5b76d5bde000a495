/** What a journal is the journal of: everything that a draft's result depends on, and nothing of where files lie. */

import { readFileSync } from 'node:fs';
import type { OpenedStudy } from '../../case/study/study-load.ts';
import { fingerprintOf } from '../work/canonical-json.ts';
import type { JournalOf } from '../work/journal.ts';
import type { Drafts } from './drafts.ts';

export function journalOf({
  lead,
  drafts,
  program,
}: {
  readonly lead: OpenedStudy;
  readonly drafts: Drafts;
  readonly program: string;
}): JournalOf {
  const { study, base } = lead;
  const { engine, pipe, run } = base;
  const { caseFile: _file, name, note: _note, pipes, cell: _cell, ...what } = study;
  return {
    kind: 'overnight',
    name,
    program,
    what: {
      study: what,
      cell: drafts.cell,
      engine,
      pipe,
      run,
      pipes: pipes.map(({ name, file }) => ({ name, text: fingerprintOf(readFileSync(file, 'utf8')) })),
    },
  };
}
