/** `echocone board`: a page in which the solver runs, so that the pipe is moved by hand and the answer follows. */

import { basename } from 'node:path';
import { boardPage } from '../../plots/pages/board-page.ts';
import type { BoardCase } from '../board/desk.ts';
import { caseOf, openFile } from '../case/load.ts';
import { keysOf } from '../case/schemas/key-list.ts';
import { sentCase } from '../case/sent-case.ts';
import { withRun } from '../study/work/run-settings.ts';
import { outlineOf } from '../study/work/run-sweep.ts';
import { jsonText } from './frame/json.ts';
import { pageScript } from './frame/page-assets.ts';
import { plainText } from './frame/plain-text.ts';
import { openRunFolder } from './frame/run-folder.ts';
import { listRun } from './frame/run-index.ts';
import type { Invocation } from './frame/verb.ts';
import { whatIfName } from './frame/what-if-name.ts';

export async function run({ files, flags, terminal, program }: Invocation): Promise<void> {
  const file = files[0]!;
  const opened = openFile(file);
  const subject = withRun(caseOf(opened, flags.set), flags);
  for (const warning of subject.warnings) terminal.warning(plainText(warning));
  const sent = sentCase(opened, flags.set);
  const carried: BoardCase = {
    file: basename(file),
    document: sent.document,
    set: sent.set,
    cell: flags.cell ?? null,
    speeds: flags.speeds ?? null,
  };
  const keys = keysOf('case').map(({ path, doc, takes, unstated }) => ({ path, doc, takes, unstated }));
  const name = whatIfName(subject.name, flags.set);
  const page = boardPage(
    { program, name, engine: subject.engine.name, pipe: subject.pipe.name, data: { carried, keys } },
    pageScript('board'),
  );
  const folder = openRunFolder({ out: flags.out, name: `${subject.name} board`, overwrite: flags.overwrite });
  folder.write('board.html', page);
  const outline = outlineOf(subject);
  const line = `A board of ${subject.run.speeds.length} speeds; the solver runs in the page.`;
  listRun(
    folder,
    'board.html',
    { title: name, kind: 'board', line, outlines: [outline], curves: [] },
    { terminal, program },
  );
  const document = {
    schemaVersion: 1,
    kind: 'board',
    program,
    name,
    page: folder.file('board.html'),
  } as const;
  if (flags.json) terminal.answer(jsonText(document));
  else
    terminal.answer(
      `${plainText(name)}: open ${folder.file('board.html')} in a browser.\nPipe, roofs and dials are moved by hand there; the answer follows on coarse\ncells, then on those of the case.`,
    );
}
