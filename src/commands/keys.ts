/** `echocone keys [KIND or PATH]`: what case files take, written from the code that reads them. */

import { KINDS, type Kind } from '../case/keys/kinds.ts';
import { type KeyRow, keysOf, keysUnder } from '../case/schemas/key-list.ts';
import { nearest } from '../case/text/nearest.ts';
import { UsageError } from './frame/exit-codes.ts';
import { folded } from './frame/folded.ts';
import { jsonText } from './frame/json.ts';
import { typed } from './frame/typed.ts';
import type { Invocation } from './frame/verb.ts';

export async function run({ files, flags, terminal, program }: Invocation): Promise<void> {
  const [asked] = files;
  const kinds = asked === undefined ? KINDS : [kindOf(asked)];
  const found = kinds.map((kind) => ({ kind, keys: rowsOf(kind, asked ?? kind) }));
  if (flags.json) {
    const document = { schemaVersion: 1, program, kinds: found };
    terminal.answer(jsonText(document));
    return;
  }
  for (const { kind, keys } of found) terminal.answer(textOf(kind, keys));
  terminal.message('A measured quantity may have its error behind it: 54 mm +- 0.05 mm, or +- 1 %.');
  if (asked === undefined) terminal.message(`One kind or branch alone: ${typed()} keys engine.passage`);
}

/** `engine` or `engine.passage`: the kind in front; a branch of a case goes into its engine and pipe. */
function kindOf(asked: string): Kind {
  const [first = ''] = asked.split('.');
  const kind = KINDS.find((one) => one === first) ?? (first === 'run' ? 'case' : undefined);
  if (kind !== undefined) return kind;
  const near = nearest(first, KINDS);
  throw new UsageError(
    `"${asked}" is no kind of file and no path in one. ${near === null ? `Kinds: ${KINDS.join(', ')}; a path is like engine.passage.` : `Did you mean "${near}"?`}`,
  );
}

function rowsOf(kind: Kind, asked: string): readonly KeyRow[] {
  if (asked === kind) return keysOf(kind);
  const path = asked.startsWith(`${kind}.`) ? asked.slice(kind.length + 1) : asked;
  const rows = keysUnder(kind, path);
  if (rows.length > 0) return rows;
  const all = keysOf(kind).map((row) => row.path);
  const near = nearest(path, all);
  const start = all.filter((one) => !one.includes('.')).join(', ');
  throw new UsageError(
    `There is no key "${path}" in a file of kind ${kind}. ${near === null ? `It has ${start}.` : `Did you mean "${kind}.${near}"?`}`,
  );
}

function textOf(kind: Kind, rows: readonly KeyRow[]): string {
  const parts = rows.map((row) => {
    const { path, doc, takes, needed, unstated, reason, example } = row;
    const lines = [doc, `Takes ${takes}.`];
    if (needed) lines.push('Has to be stated.');
    else if (unstated !== null) lines.push(`If left out: ${unstated}${reason === '' ? '' : ` (${reason})`}.`);
    if (example !== '') lines.push(`Example: ${path.split('.').at(-1) ?? ''}: ${example}`);
    return `${path}\n${lines
      .flatMap((line) => folded(line, 76).split('\n'))
      .map((line) => `    ${line}`)
      .join('\n')}`;
  });
  return `kind: ${kind}\n\n${parts.join('\n\n')}\n`;
}
