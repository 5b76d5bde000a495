/** `kind:` says what a file is; it stands at the top of every file, and may stand in a part written inline. */

import { nearest } from '../text/nearest.ts';
import { quoted } from '../text/printable.ts';
import { entryOf, type Node, scalarText } from '../text/tree.ts';
import { refuse, type Schema, within } from './schema.ts';

export const KINDS = ['engine', 'pipe', 'case', 'study', 'pulse', 'measured'] as const;
export type Kind = (typeof KINDS)[number];

/** The kind a tree says it is, if it is one of the known. */
export function kindOf(root: Node): Kind | null {
  const word = scalarText(entryOf(root, 'kind')?.node);
  return KINDS.find((kind) => kind === word) ?? null;
}

/** Whether a text, sound or not, says that it is of a kind. Lines of a named file that does not are not shown: it may hold anything. */
export function saysKind(text: string, kind: Kind): boolean {
  return new RegExp(`^[\\s{"']*kind["']?\\s*:\\s*["']?${kind}\\b`, 'm').test(text);
}

/** What to do about a word that is no kind. */
export function kindHint(word: string): string {
  const near = nearest(word, KINDS);
  return near === null ? `known kinds: ${KINDS.join(', ')}` : `did you mean "${near}"?`;
}

/** Reads the keys of one kind; what says it is another kind is refused. */
export function ofKind<T>(kind: Kind, inner: Schema<T>): Schema<T> {
  return {
    takes: `${inner.takes}, kind: ${kind}`,
    read(node, at) {
      const entry = entryOf(node, 'kind');
      if (node.kind !== 'map' || entry === undefined) return inner.read(node, at);
      const word = scalarText(entry.node);
      if (word !== kind) {
        const known = kindOf(node) !== null;
        const what = known ? `this is ${fileOf(word!)}` : `unknown kind ${quoted(word ?? '')}`;
        return refuse(
          within(at, 'kind'),
          entry.node.place,
          `${what} where ${dueOf(kind)}`,
          known ? '' : kindHint(word ?? ''),
        );
      }
      return inner.read({ ...node, entries: node.entries.filter((other) => other !== entry) }, at);
    },
    jsonSchema() {
      const schema = inner.jsonSchema();
      const properties = schema.properties as Readonly<Record<string, unknown>>;
      return {
        ...schema,
        properties: { kind: { const: kind, description: 'What this file is.' }, ...properties },
      };
    },
  };
}

const article = (kind: string): string => (kind === 'engine' ? 'an engine' : `a ${kind}`);

const fileOf = (kind: string): string =>
  kind === 'measured' ? 'a file of measurements' : `${article(kind)} file`;

const dueOf = (kind: Kind): string =>
  kind === 'measured' ? 'measurements are due' : `${article(kind)} is due`;
