/** A number that may be left free: a value, the word `free`, or the range that it lies in. */

import type { Loose } from '../../model/measured.ts';
import { bySort } from '../keys/branches.ts';
import { record, required } from '../keys/record.ts';
import { checked, note, type Schema } from '../keys/schema.ts';
import { scalarText } from '../text/tree.ts';

export function loose(inner: Schema<number>, what: string): Schema<Loose> {
  const word: Schema<Loose> = {
    takes: `${inner.takes}, or the word free`,
    lone: false,
    read(node, at) {
      if (scalarText(node) !== 'free') {
        const value = inner.read(node, at);
        return value === undefined ? undefined : { kind: 'known', value };
      }
      note(at, 'free');
      return { kind: 'free', range: null };
    },
    jsonSchema: () => ({ anyOf: [inner.jsonSchema(), { type: 'string', enum: ['free'] }] }),
  };
  const range = checked(
    record(`a range of ${what}`, {
      from: required(inner, 'Lower end of the range.'),
      to: required(inner, 'Upper end of the range.'),
    }),
    ({ from, to }, judge): Loose | undefined =>
      from < to ? { kind: 'free', range: [from, to] } : judge.refuse(['to'], 'is not above the lower end'),
  );
  return bySort({ scalar: word, map: range });
}
