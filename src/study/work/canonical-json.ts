/**
 * One text for equal data: JSON with the keys of every object in order and nothing between the tokens. Absent and
 * undefined members are the same; what has no JSON, such as a number that is not finite, is refused.
 */

import { createHash } from 'node:crypto';
import { configure } from 'safe-stable-stringify';

const stringify = configure({ strict: true });

/** @throws Error where something has no place in JSON */
export function canonicalJson(value: unknown): string {
  const text = stringify(value);
  if (text === undefined) throw new TypeError(`A ${typeof value} has no place in canonical JSON.`);
  return text;
}

/** SHA-256 of the canonical JSON, in hexadecimal: equal for equal data. */
export function fingerprintOf(value: unknown): string {
  return createHash('sha256').update(canonicalJson(value)).digest('hex');
}
