/**
 * Every key of a kind of file, from the objects that read it: path, what it takes with unit and limits, its default with the
 * reason, and an example. Items of a list stand under `*`; of a list they may go by name or number.
 */

import type { Kind } from '../keys/kinds.ts';
import type { AboutKey } from '../keys/record.ts';
import type { JsonSchema } from '../keys/schema.ts';
import { jsonSchemas } from './json-schemas.ts';
import { exampleAt } from './key-examples.ts';

export interface KeyRow extends AboutKey {
  /** `exhaust.windows.*.width` */
  readonly path: string;
  /** How a file would write it, to be read as it is; empty where it is a group of keys. */
  readonly example: string;
}

/** All keys of a kind, in the order that files are read in. */
export function keysOf(kind: Kind): readonly KeyRow[] {
  const rows = new Map<string, KeyRow>();
  walk(jsonSchemas()[kind], '', { kind, rows });
  return [...rows.values()];
}

/** The keys at a path and below; none: there is no such path. */
export function keysUnder(kind: Kind, path: string): readonly KeyRow[] {
  const plain = path.replaceAll(/\.\d+(?=\.|$)/g, '.*');
  return keysOf(kind).filter((row) => row.path === plain || row.path.startsWith(`${plain}.`));
}

interface Found {
  readonly kind: Kind;
  readonly rows: Map<string, KeyRow>;
}

function walk(schema: JsonSchema, path: string, found: Found): void {
  const { kind, rows } = found;
  for (const key of ['anyOf', 'oneOf']) for (const one of asList(schema[key])) walk(one, path, found);
  if (isSchema(schema.items)) walk(schema.items, `${path}.*`, found);
  if (!isSchema(schema.properties)) return;
  for (const [key, property] of Object.entries(schema.properties)) {
    if (!isSchema(property)) continue;
    const at = path === '' ? key : `${path}.${key}`;
    const about = (property['x-key'] ?? variantOf(key, property)) as AboutKey;
    if (!rows.has(at))
      rows.set(at, { path: at, ...about, example: exampleOf(`${kind}.${at}`, property, about) });
    walk(property, at, found);
  }
}

/** A key without a field of its own: `kind`, or the name of a variant. */
function variantOf(key: string, schema: JsonSchema): AboutKey {
  const isKind = typeof schema.const === 'string';
  return {
    doc: isKind ? 'What this file is.' : `One way of several: ${key}.`,
    takes: isKind ? `the word ${String(schema.const)}` : String(schema['x-takes'] ?? schema.title ?? 'keys'),
    needed: isKind,
    unstated: null,
    reason: '',
  };
}

/** The example of the table, else one that the schema or the default gives. */
function exampleOf(path: string, schema: JsonSchema, about: AboutKey): string {
  return exampleAt(path) ?? ownExample(schema, about);
}

function ownExample(schema: JsonSchema, about: AboutKey): string {
  if (about.unstated !== null) return about.unstated;
  if (typeof schema.const === 'string') return schema.const;
  const [example] = asValues(schema.examples);
  if (example !== undefined) return String(example);
  const [word] = asValues(schema.enum);
  if (word !== undefined) return String(word);
  if (schema.type === 'boolean') return 'true';
  if (schema.type === 'integer' || schema.type === 'number')
    return String(schema.minimum ?? schema.maximum ?? 1);
  if (schema.type === 'string') return 'a text';
  if (isSchema(schema.items)) {
    const one = ownExample(schema.items, { ...about, unstated: null });
    const least = typeof schema.minItems === 'number' ? Math.max(1, schema.minItems) : 1;
    return one === '' ? '' : `[${Array.from({ length: least }, () => one).join(', ')}]`;
  }
  for (const one of asList(schema.anyOf)) {
    const found = ownExample(one, { ...about, unstated: null });
    if (found !== '') return found;
  }
  return '';
}

function isSchema(value: unknown): value is JsonSchema {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

const asList = (value: unknown): readonly JsonSchema[] =>
  Array.isArray(value) ? value.filter(isSchema) : [];
const asValues = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);
