/**
 * A case as plain data that can be sent: its document with engine and pipe inline, and the overrides. Read again, it makes
 * the same case, since the same reader reads the same words; and it is held to the same schema. No file is read for it:
 * a name in the place of an engine or a pipe is refused.
 */

import { caseOf, inlineRoot, type OpenedFile } from './load.ts';
import { parseSource } from './text/document.ts';
import { parseOverride } from './text/override.ts';
import { CaseProblems, type Problem } from './text/problem.ts';
import type { Source } from './text/source.ts';
import { entryOf, type Node, type Plain, plainOf } from './text/tree.ts';

export interface SentCase {
  readonly document: Plain;
  readonly set: readonly string[];
}

/** An opened case with overrides, as it is sent. @throws CaseProblems */
export function sentCase(opened: OpenedFile, set: readonly string[]): SentCase {
  const { root, rest } = inlineRoot(opened, set);
  return { document: plainOf(root), set: rest };
}

/** The case that was sent. @throws CaseProblems */
export function receivedCase({ document, set }: SentCase): ReturnType<typeof caseOf> {
  const problems: Problem[] = [];
  const report = (problem: Problem): void => void problems.push(problem);
  const { source, root } = parsedOnce(JSON.stringify(document, null, 1), report);
  const place = { source, start: 0, end: 1 };
  const refuse = (message: string): void => report({ place, message, hint: '' });
  if (root !== null && root.kind !== 'map') refuse('it is no group of keys');
  if (root?.kind === 'map') {
    for (const key of ['engine', 'pipe'])
      if (entryOf(root, key)?.node.kind !== 'map')
        refuse(`${key}: it must stand in the piece; a file that it names is not read`);
    for (const { key, node } of root.entries)
      if (node.kind === 'scalar' && !['kind', 'name', 'note'].includes(key))
        refuse(`${key}: a file that a piece names is not read`);
  }
  for (const text of set)
    if (parseOverride(text, report)?.path.length === 1)
      refuse(`${text.slice(0, 60)}: an override of a whole part is not taken`);
  if (problems.length > 0 || root?.kind !== 'map') throw new CaseProblems(problems);
  return caseOf({ file: 'piece', kind: 'case', root, parts: new Map() }, set);
}

/** Documents that are remembered: the pieces of a study differ in their overrides, and hold one document or a few. */
const REMEMBERED = 8;
const remembered = new Map<string, { readonly source: Source; readonly root: Node | null }>();

/** A document as a tree; one that has a fault is not remembered. */
function parsedOnce(text: string, report: (problem: Problem) => void) {
  const known = remembered.get(text);
  if (known !== undefined) return known;
  let sound = true;
  const source: Source = { name: 'piece', folder: '', text };
  const root = parseSource(source, (problem) => {
    sound = false;
    report(problem);
  });
  const parsed = { source, root };
  if (!sound) return parsed;
  for (const oldest of [...remembered.keys()].slice(0, remembered.size - REMEMBERED + 1))
    remembered.delete(oldest);
  remembered.set(text, parsed);
  return parsed;
}
