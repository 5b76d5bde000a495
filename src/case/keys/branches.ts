/** Schemas made of others: lists, one of several kinds of node, and one of several named variants. */

import { nearest } from '../text/nearest.ts';
import { printable, quoted } from '../text/printable.ts';
import { emptyMap, itemLabel, type Node, nodeName, scalarText } from '../text/tree.ts';
import { found } from './leaves.ts';
import { type JsonSchema, note, refuse, type Schema, within } from './schema.ts';

/** A list; its items go by their name where they have one that is theirs alone, by their number otherwise. */
export function list<T>(item: Schema<T>, least = 1, most = 1000): Schema<readonly T[]> {
  const many = least === most ? `${least}` : least === 0 ? `at most ${most}` : `${least} to ${most}`;
  return {
    takes: `a list of ${many}, each ${item.takes}`,
    read(node, at) {
      if (node.kind !== 'list')
        return refuse(at, node.place, `found ${nodeName(node)} where a list is due, of ${item.takes}`);
      if (node.items.length < least || node.items.length > most) {
        const has = `${node.items.length} ${node.items.length === 1 ? 'item' : 'items'}`;
        return refuse(
          at,
          node.place,
          `the list has ${has}; it takes ${many}`,
          commaHint(node.items, least, most),
        );
      }
      if (node.items.length === 0) note(at, 'none');
      const values = node.items.map((child, index) =>
        item.read(child, within(at, itemLabel(node.items, index))),
      );
      return values.includes(undefined) ? undefined : (values as readonly T[]);
    },
    jsonSchema: () => ({ type: 'array', minItems: least, maxItems: most, items: item.jsonSchema() }),
  };
}

/** `[36 mm 40 mm]` is one item to YAML: where commas make the list as long as it has to be, they were forgotten. */
function commaHint(items: readonly Node[], least: number, most: number): string {
  const parts = items.flatMap((item) => scalarText(item)?.split(/\s+(?=[+-]?\.?\d)/) ?? ['']);
  const whole = parts.length > items.length && parts.length >= least && parts.length <= most;
  return whole ? `put commas between the items: [${printable(parts.join(', '))}]` : '';
}

/** Reads a single value, a list and a group of keys each by a schema of its own. */
export function bySort<T>(sorts: {
  readonly scalar?: Schema<T>;
  readonly list?: Schema<T>;
  readonly map?: Schema<T>;
}): Schema<T> {
  const all = [sorts.scalar, sorts.list, sorts.map].filter((schema) => schema !== undefined);
  const takes = all.map((schema) => schema.takes).join(', or ');
  return {
    takes,
    ...(sorts.map === undefined ? { lone: false } : {}),
    read(node, at) {
      const sort = node.kind === 'change' ? 'scalar' : node.kind;
      const schema = sorts[sort];
      return schema === undefined
        ? refuse(at, node.place, `found ${found(node)}; it takes ${takes}`)
        : schema.read(node, at);
    },
    jsonSchema: () => ({ anyOf: all.map((schema) => schema.jsonSchema()) }),
  };
}

/**
 * One of several named variants: `{ open: { endCorrection: 0.6 } }`, or just `open` when everything in it has a default.
 */
export function variant<T>(name: string, variants: Readonly<Record<string, Schema<T>>>): Schema<T> {
  const words = Object.keys(variants);
  const takes = `${name}: one of ${words.join(', ')}`;
  return {
    takes,
    read(node, at) {
      const inner = node.kind === 'map' ? soleEntry(node) : null;
      const word = inner?.key ?? scalarText(node) ?? '';
      const schema = Object.hasOwn(variants, word) ? variants[word] : undefined;
      if (schema === undefined) {
        const near = nearest(word, words);
        const place = inner?.keyPlace ?? node.place;
        const what = inner === undefined ? 'several keys' : inner === null ? found(node) : quoted(word);
        return refuse(
          at,
          place,
          `found ${what}; it takes ${takes}`,
          near === null ? '' : `did you mean "${near}"?`,
        );
      }
      if (inner === null || inner === undefined) {
        if (schema.lone === false)
          return refuse(
            at,
            node.place,
            `${quoted(word)} alone says too little: it needs ${schema.takes}`,
            `give it a value of its own: { ${word}: … }, or on the command line ${printable(at.path)}.${word}=…`,
          );
        note(at, word);
      }
      return schema.read(inner?.node ?? emptyMap(node.place), within(at, word));
    },
    jsonSchema: () => ({
      anyOf: [...words.map((word) => variantJson(word, variants[word]!)), { type: 'string', enum: words }],
    }),
  };
}

/** The only entry of a group; of several, the one that an override set; undefined if that does not decide. */
function soleEntry(node: Node & { kind: 'map' }): (typeof node.entries)[number] | undefined {
  const overrides = node.entries.filter((entry) => entry.override);
  const candidates = overrides.length > 0 ? overrides : node.entries;
  return candidates.length === 1 ? candidates[0] : undefined;
}

function variantJson(word: string, schema: Schema<unknown>): JsonSchema {
  return {
    type: 'object',
    additionalProperties: false,
    properties: { [word]: { ...schema.jsonSchema(), 'x-takes': schema.takes } },
    required: [word],
  };
}

/** A value, or the word `none` for a feature that is switched off, which reads as null. */
export function orNone<T>(inner: Schema<T>): Schema<T | null> {
  return {
    takes: `${inner.takes}, or none`,
    lone: false,
    read(node, at) {
      if (scalarText(node) !== 'none') return inner.read(node, at);
      note(at, 'none');
      return null;
    },
    jsonSchema: () => ({ anyOf: [inner.jsonSchema(), { type: 'string', enum: ['none'] }] }),
  };
}

/** Takes no keys. */
export function nothing<T>(value: T): Schema<T> {
  return {
    takes: 'nothing',
    read(node, at) {
      const empty =
        (node.kind === 'map' && node.entries.length === 0) || (node.kind === 'scalar' && node.value === null);
      return empty ? value : refuse(at, node.place, `found ${nodeName(node)} where nothing is due`);
    },
    jsonSchema: () => ({ type: ['object', 'null'], maxProperties: 0 }),
  };
}
