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
    .map(([name, value]) => ` ${JSON.stringify(name)}: ${JSON.stringify(value, plainValue)}`);
  return `{\n${members.join(',\n')}\n}\n`;
}

function plainValue(_name: string, value: unknown): unknown {
  if (ArrayBuffer.isView(value) && !(value instanceof DataView)) return Array.from(value as Float64Array);
  return value;
}
