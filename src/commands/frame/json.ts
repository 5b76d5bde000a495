/**
 * Result documents as JSON: one line for each member at the top, so that a document of megabytes still shows its
 * outline in a pager. Typed arrays become arrays; a number that is not finite becomes null.
 */

/** Every document says which shape it has. */
export interface Versioned {
  readonly schemaVersion: number;
}

/** The document with a line end. */
export function jsonText(document: Versioned): string {
  const members = Object.entries(document)
    .filter(([, value]) => value !== undefined)
    .map(([name, value]) => ` ${JSON.stringify(name)}: ${JSON.stringify(plain(value))}`);
  return `{\n${members.join(',\n')}\n}\n`;
}

/** The same with arrays in the place of typed ones. To be asked of every number would take half of all the time. */
function plain(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (ArrayBuffer.isView(value)) return value instanceof DataView ? value : Array.from(value as Float64Array);
  if (Array.isArray(value)) return value.every(isSimple) ? value : value.map(plain);
  if ('toJSON' in value) return value;
  return Object.fromEntries(Object.entries(value).map(([name, member]) => [name, plain(member)]));
}

const isSimple = (value: unknown): boolean => typeof value !== 'object' || value === null;
