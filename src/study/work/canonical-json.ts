/**
 * One text for equal data: JSON with the keys of every object in order (by code unit, as in RFC 8785) and nothing
 * between the tokens. Absent and undefined members are the same; a number that is not finite has no JSON and is refused.
 */

import { createHash } from 'node:crypto';

export function canonicalJson(value: unknown): string {
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new RangeError(`${value} has no place in canonical JSON.`);
    return JSON.stringify(value);
  }
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map((item) => canonicalJson(item)).join(',')}]`;
  if (typeof value === 'object') {
    const members = Object.entries(value)
      .filter(([, member]) => member !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, member]) => `${JSON.stringify(name)}:${canonicalJson(member)}`);
    return `{${members.join(',')}}`;
  }
  throw new TypeError(`A ${typeof value} has no place in canonical JSON.`);
}

/** SHA-256 of the canonical JSON, in hexadecimal: equal for equal data. */
export function fingerprintOf(value: unknown): string {
  return createHash('sha256').update(canonicalJson(value)).digest('hex');
}
