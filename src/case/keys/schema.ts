/**
 * What a schema is: one object that reads a node of the tree, says what it takes, and gives its JSON Schema, so that the
 * three never drift apart. Reading keeps a ledger of problems, of the inputs used, and of those the file did not state.
 * A reader that reported a problem returns undefined; null is a value.
 */

import type { AssumedInput, Measured, UsedInput } from '../../model/inputs.ts';
import { printable } from '../text/printable.ts';
import { addProblem, type Problem } from '../text/problem.ts';
import { type Place, positionAt } from '../text/source.ts';
import { type Node, spotOf } from '../text/tree.ts';

export type JsonSchema = { readonly [key: string]: unknown };

export interface Schema<T> {
  /** What may stand here, for a message: "a length in mm, cm, m, in or um". */
  readonly takes: string;
  /** False: it takes no empty group, so a variant of it cannot be named by its word alone. */
  readonly lone?: false;
  read(node: Node, at: Reading): T | undefined;
  jsonSchema(): JsonSchema;
}

/** Everything that reading a case gathers. */
export interface Ledger {
  readonly problems: Problem[];
  readonly assumed: AssumedInput[];
  readonly inputs: UsedInput[];
  readonly warnings: string[];
}

export function newLedger(): Ledger {
  return { problems: [], assumed: [], inputs: [], warnings: [] };
}

/** Where the reader is: the path so far, and whether it reads a default. */
export interface Reading {
  readonly ledger: Ledger;
  readonly path: string;
  /** Why the value at hand is assumed; null when a file or an override states it. */
  readonly assuming: { readonly reason: string; readonly sort: AssumedInput['sort'] } | null;
}

export function within(at: Reading, key: string | number): Reading {
  return { ...at, path: at.path === '' ? String(key) : `${at.path}.${key}` };
}

/** Reports a problem; the field's path opens the message. */
export function refuse(at: Reading, place: Place, message: string, hint = ''): undefined {
  const path = at.path === '' ? '' : `${printable(at.path)}: `;
  addProblem(at.ledger.problems, { place, message: path + message, hint });
  return undefined;
}

/** Enters an input that was read, its measuring error where it has one, and that it was assumed if so. */
export function note(at: Reading, value: string, measured?: Measured): void {
  const path = printable(at.path);
  const error = measured === undefined ? {} : { measured };
  at.ledger.inputs.push({ path, value: printable(value), assumed: at.assuming !== null, ...error });
  if (at.assuming !== null) at.ledger.assumed.push({ path, value: printable(value), ...at.assuming });
}

/** What a check of a read value needs in order to speak about its parts. */
export interface Judge {
  readonly at: Reading;
  /** Refuses what stands at a path of keys below the checked node. */
  refuse(path: readonly (string | number)[], message: string, hint?: string): undefined;
  /** File, line and column of what stands at a path of keys, for a message. */
  whereIs(path: readonly (string | number)[]): string;
  warn(sentence: string): void;
}

/** A schema whose value is made from another's, or refused with the reason. */
export function checked<A, B>(
  inner: Schema<A>,
  make: (value: A, judge: Judge, node: Node) => B | undefined,
): Schema<B> {
  return {
    takes: inner.takes,
    ...(inner.lone === false ? { lone: false } : {}),
    jsonSchema: () => inner.jsonSchema(),
    read(node, at) {
      const value = inner.read(node, at);
      return value === undefined ? undefined : make(value, judgeOf(node, at), node);
    },
  };
}

export function judgeOf(node: Node, at: Reading): Judge {
  return {
    at,
    refuse(path, message, hint = '') {
      const { place, labels } = spotOf(node, path);
      return refuse(labels.reduce(within, at), place, message, hint);
    },
    whereIs(path) {
      const { source, start } = spotOf(node, path).place;
      const { line, column } = positionAt(source, start);
      return `${source.name}:${line}:${column}`;
    },
    warn(sentence) {
      at.ledger.warnings.push(sentence);
    },
  };
}
