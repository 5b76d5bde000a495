/**
 * A group of keys. Every key has a sentence on what it is; a key the file leaves out is refused, read from its default
 * (a text with its unit, checked like the file's, with the reason beside it), read as an empty group, or taken as absent.
 */

import type { AssumedInput } from '../../model/inputs.ts';
import { parseSource } from '../text/document.ts';
import { nearest } from '../text/nearest.ts';
import { quoted } from '../text/printable.ts';
import type { Place } from '../text/source.ts';
import { emptyMap, type MapNode, type Node, nodeName } from '../text/tree.ts';
import { pathsEndingIn } from './known-paths.ts';
import { type JsonSchema, note, type Reading, refuse, type Schema, within } from './schema.ts';

type Absent =
  | { readonly kind: 'refused' }
  | {
      readonly kind: 'default';
      readonly text: string;
      readonly reason: string;
      readonly sort: AssumedInput['sort'];
    }
  | { readonly kind: 'group' }
  | { readonly kind: 'null'; readonly says: string; readonly reason: string };

export interface Field<T> {
  readonly schema: Schema<T>;
  /** What it is, in a sentence. */
  readonly doc: string;
  readonly absent: Absent;
}

export function required<T>(schema: Schema<T>, doc: string): Field<T> {
  return { schema, doc, absent: { kind: 'refused' } };
}

/** A physical value taken for want of a measurement; the reason names its source or says that there is none. */
export function assumed<T>(schema: Schema<T>, doc: string, text: string, reason: string): Field<T> {
  return { schema, doc, absent: { kind: 'default', text, reason, sort: 'quantity' } };
}

/** A feature that is not there unless stated. */
export function unless<T>(schema: Schema<T>, doc: string, text: string, reason: string): Field<T> {
  return { schema, doc, absent: { kind: 'default', text, reason, sort: 'absence' } };
}

/** How the computation is run. */
export function setting<T>(schema: Schema<T>, doc: string, text: string, reason: string): Field<T> {
  return { schema, doc, absent: { kind: 'default', text, reason, sort: 'setting' } };
}

/** A group whose keys all have defaults of their own. */
export function group<T>(schema: Schema<T>, doc: string): Field<T> {
  return { schema, doc, absent: { kind: 'group' } };
}

/** May be left out, which reads as null; with a reason, that is listed among the assumptions. */
export function optional<T>(schema: Schema<T>, doc: string, says = '', reason = ''): Field<T | null> {
  return { schema, doc, absent: { kind: 'null', says, reason } };
}

/** Keys of which one (or, if `needed` is false, at most one) may be stated; an override drops the others. */
export interface Alternatives {
  readonly keys: readonly string[];
  readonly needed: boolean;
  /** What to do for who would raise or lower the one that is not stated. */
  readonly instead?: string;
}

export type Fields = Readonly<Record<string, Field<unknown>>>;

export type Values<F extends Fields> = { readonly [K in keyof F]: F[K] extends Field<infer T> ? T : never };

export function record<F extends Fields>(
  name: string,
  fields: F,
  alternatives: readonly Alternatives[] = [],
): Schema<Values<F>> {
  return {
    takes: `${name}, a group of keys (${Object.keys(fields).join(', ')})`,
    read(node, at) {
      if (node.kind !== 'map') {
        return refuse(
          at,
          node.place,
          `found ${nodeName(node)} where ${name} is due: keys ${Object.keys(fields).join(', ')}`,
        );
      }
      const before = at.ledger.problems.length;
      const spelt = respelt(node, fields, at);
      const used = settleAlternatives(spelt, alternatives, name, at);
      const values: Record<string, unknown> = {};
      for (const [key, field] of Object.entries(fields)) {
        values[key] = readField(used, key, field, within(at, key));
      }
      const unread = Object.values(values).includes(undefined);
      return unread || at.ledger.problems.length > before ? undefined : (values as Values<F>);
    },
    jsonSchema: () => recordJsonSchema(name, fields, alternatives),
  };
}

/**
 * Refuses unknown keys. A misspelt one stands for the key that was meant, where the group does not state that as well:
 * it is not missing then, and what it holds is looked at too.
 */
function respelt(node: MapNode, fields: Fields, at: Reading): MapNode {
  const known = Object.keys(fields);
  const stated = new Set(node.entries.map(({ key }) => key));
  const entries = node.entries.map((entry) => {
    const { key, keyPlace } = entry;
    if (Object.hasOwn(fields, key)) return entry;
    const deeper = pathsEndingIn(fields, key);
    const near = deeper.length > 0 ? null : nearest(key, known);
    refuse(at, keyPlace, `unknown key ${quoted(key)}`, unknownHint(key, near, deeper, known, at));
    if (near === null || stated.has(near)) return entry;
    stated.add(near);
    return { ...entry, key: near };
  });
  return { ...node, entries };
}

/** Suggestions at most where a key belongs to several groups. */
const SUGGESTED = 3;

function unknownHint(
  key: string,
  near: string | null,
  deeper: readonly string[],
  known: readonly string[],
  at: Reading,
): string {
  const [, word = '', value = ''] = /^(\w+)[ :]\s*(.+)$/.exec(key) ?? [];
  if (known.includes(word)) return `a colon and a blank stand between key and value: ${word}: ${value}`;
  if (near !== null) return `did you mean "${near}"?`;
  const paths = deeper.slice(0, SUGGESTED).map((path) => `"${at.path === '' ? '' : `${at.path}.`}${path}"`);
  if (paths.length > 0) return `did you mean ${paths.join(' or ')}?`;
  return `known here: ${known.join(', ')}`;
}

/** Drops what an override replaces; refuses two of a kind and, if one is needed, none. */
function settleAlternatives(
  node: MapNode,
  groups: readonly Alternatives[],
  name: string,
  at: Reading,
): MapNode {
  let entries = node.entries;
  for (const { keys, needed, instead = '' } of groups) {
    const stated = entries.filter((entry) => keys.includes(entry.key));
    const fromOverride = stated.filter((entry) => entry.override);
    const kept = fromOverride.length > 0 ? fromOverride : stated;
    if (kept.length > 1) {
      refuse(
        at,
        kept[1]!.keyPlace,
        `${kept.map((entry) => entry.key).join(' and ')} say the same thing twice`,
        'keep one',
      );
    }
    const change = kept.find((entry) => entry.node.kind === 'change' && entry.node.base === null);
    const other = stated.find((entry) => entry !== change);
    if (change !== undefined && other !== undefined) {
      refuse(
        within(at, change.key),
        change.node.place,
        `cannot be raised or lowered: the file states ${other.key}`,
        instead,
      );
    }
    if (kept.length === 0 && needed) {
      refuse(at, openingOf(node), `${name} needs one of ${keys.join(', ')}`);
    }
    entries = entries.filter((entry) => !stated.includes(entry) || kept.includes(entry));
  }
  return { ...node, entries };
}

function readField(map: MapNode, key: string, field: Field<unknown>, at: Reading): unknown {
  const { schema, absent, doc } = field;
  const entry = map.entries.find((candidate) => candidate.key === key);
  if (entry !== undefined) return schema.read(withDefaultBase(entry.node, absent), { ...at, assuming: null });
  switch (absent.kind) {
    case 'refused':
      return refuse(at, openingOf(map), `is missing: ${doc}`, `it takes ${schema.takes}`);
    case 'default':
      return schema.read(defaultNode(absent.text), {
        ...at,
        assuming: { reason: absent.reason, sort: absent.sort },
      });
    case 'group':
      return schema.read(emptyMap(map.place), at);
    case 'null':
      if (absent.reason !== '')
        note({ ...at, assuming: { reason: absent.reason, sort: 'absence' } }, absent.says);
      return null;
  }
}

/** A change of something the file does not state changes its default. */
function withDefaultBase(node: Node, absent: Absent): Node {
  if (node.kind !== 'change' || node.base !== null || absent.kind !== 'default') return node;
  return { ...node, base: defaultNode(absent.text) };
}

const defaults = new Map<string, Node>();

function defaultNode(text: string): Node {
  const known = defaults.get(text);
  if (known !== undefined) return known;
  const source = { name: 'default', folder: '', text };
  const node = parseSource(source, (problem) => {
    throw new Error(`default ${text}: ${problem.message}`);
  });
  defaults.set(text, node!);
  return node!;
}

/** Where to point when something is missing in a group: its first key. */
function openingOf(map: MapNode): Place {
  return map.entries[0]?.keyPlace ?? { ...map.place, end: map.place.start + 1 };
}

function recordJsonSchema(name: string, fields: Fields, alternatives: readonly Alternatives[]): JsonSchema {
  const properties = Object.entries(fields).map(([key, field]) => [key, describedField(field)] as const);
  const refused = Object.entries(fields).filter(([, field]) => field.absent.kind === 'refused');
  const oneOf = alternatives.map(({ keys, needed }) => {
    const choices: JsonSchema[] = keys.map((key) => ({ required: [key] }));
    if (!needed) choices.push({ not: { anyOf: keys.map((key) => ({ required: [key] })) } });
    return { oneOf: choices };
  });
  return {
    title: name,
    type: 'object',
    additionalProperties: false,
    properties: Object.fromEntries(properties),
    ...(refused.length > 0 ? { required: refused.map(([key]) => key) } : {}),
    ...(oneOf.length > 0 ? { allOf: oneOf } : {}),
  };
}

/** What is told of a key besides what JSON Schema knows; editors pass over it. */
export interface AboutKey {
  readonly doc: string;
  /** Unit and limits in words. */
  readonly takes: string;
  readonly needed: boolean;
  /** The default as a file would write it; null: none. */
  readonly unstated: string | null;
  /** Why that. */
  readonly reason: string;
}

function aboutField({ schema, doc, absent }: Field<unknown>): AboutKey {
  return {
    doc,
    takes: schema.takes,
    needed: absent.kind === 'refused',
    unstated:
      absent.kind === 'default' ? absent.text : absent.kind === 'null' && absent.says ? absent.says : null,
    reason: absent.kind === 'default' || absent.kind === 'null' ? absent.reason : '',
  };
}

function describedField(field: Field<unknown>): JsonSchema {
  const { absent } = field;
  const unstated = absent.kind === 'default' ? ` Default ${absent.text}: ${absent.reason}` : '';
  return { ...field.schema.jsonSchema(), description: field.doc + unstated, 'x-key': aboutField(field) };
}
