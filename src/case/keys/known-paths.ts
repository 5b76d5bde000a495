/**
 * Where a key belongs that was looked for in the wrong group: `bore` of a case is `engine.bore`. The paths come out of the
 * JSON Schemas of the groups below; an item of a list goes by its number there, the first one standing for all.
 */

import type { JsonSchema, Schema } from './schema.ts';

/** Paths below a group that end in a key, the shortest first. */
export function pathsEndingIn(
  fields: Readonly<Record<string, { readonly schema: Schema<unknown> }>>,
  key: string,
): readonly string[] {
  const found = new Set<string>();
  for (const [name, { schema }] of Object.entries(fields)) search(schema.jsonSchema(), name, key, found);
  const steps = (path: string): number => path.split('.').length;
  return [...found].sort((a, b) => steps(a) - steps(b));
}

function search(schema: JsonSchema, path: string, key: string, found: Set<string>): void {
  const { properties, items, anyOf } = schema as {
    readonly properties?: Readonly<Record<string, JsonSchema>>;
    readonly items?: JsonSchema;
    readonly anyOf?: readonly JsonSchema[];
  };
  for (const [name, inner] of Object.entries(properties ?? {})) {
    if (name === key) found.add(`${path}.${name}`);
    search(inner, `${path}.${name}`, key, found);
  }
  if (items !== undefined) search(items, `${path}.0`, key, found);
  for (const one of anyOf ?? []) search(one, path, key, found);
}
