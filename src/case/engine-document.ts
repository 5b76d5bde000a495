/**
 * An engine written back as a file, with values of its inputs in place of what it states or leaves open, each with a comment.
 * Everything else stays as it was written, word for word.
 */

import { type Document, isMap, isScalar, isSeq, Document as YamlDocument } from 'yaml';
import { inlineRoot, type OpenedFile } from './load.ts';
import { applyOverride, itemIndex, parseOverride } from './text/override.ts';
import { CaseProblems, type Problem } from './text/problem.ts';
import { entryOf, type Node, type Plain, plainOf } from './text/tree.ts';

export interface WrittenInput {
  /** `engine.passage.length=65 mm` */
  readonly set: string;
  readonly comment: string;
}

/**
 * The text of an engine file; `note` goes on top of it as a comment. @throws CaseProblems
 * @param set overrides of the case, worked in first; those that raise or lower a value are left out of the file
 */
export function engineDocument(
  opened: OpenedFile,
  set: readonly string[],
  inputs: readonly WrittenInput[],
  note: string,
): string {
  const { root, rest } = inlineRoot(opened, set);
  const problems: Problem[] = [];
  const report = (problem: Problem): void => void problems.push(problem);
  let whole: Node = root;
  for (const text of [...rest, ...inputs.map((one) => one.set)]) {
    const override = parseOverride(text, report);
    if (override !== null && override.action === '=') whole = applyOverride(whole, override, report);
  }
  if (problems.length > 0) throw new CaseProblems(problems);
  const engine = entryOf(whole, 'engine')!.node;
  const document: Document = new YamlDocument(withKind(plainOf(engine)));
  for (const { set: text, comment } of inputs) commentAt(document, engine, text, comment);
  document.commentBefore = note
    .split(/\r?\n/)
    .map((line) => ` ${line}`)
    .join('\n');
  return document.toString({ lineWidth: 0, flowCollectionPadding: true });
}

/** The kind stands first in a file of its own. */
function withKind(engine: Plain): Plain {
  if (typeof engine !== 'object' || engine === null || Array.isArray(engine)) return engine;
  return { kind: 'engine', ...engine };
}

/** Puts a comment behind the value that an override set. */
function commentAt(document: Document, engine: Node, text: string, comment: string): void {
  const override = parseOverride(text, () => {});
  if (override === null) return;
  const keys: (string | number)[] = [];
  let at: Node | undefined = engine;
  for (const { key } of override.path.slice(1)) {
    const index: number | null = at?.kind === 'list' ? itemIndex(at.items, key) : null;
    keys.push(index ?? key);
    if (at?.kind === 'list') at = index === null ? undefined : at.items[index];
    else at = at === undefined ? undefined : entryOf(at, key)?.node;
  }
  const found = document.getIn(keys, true);
  if (isScalar(found) || isMap(found) || isSeq(found)) found.comment = ` ${comment}`;
}
