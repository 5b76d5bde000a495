/** The single values of a case file: quantities with their unit, shares, counts, yes-or-no, words and names. */

import type { Dimension } from '../../model/dimension.ts';
import { parseMeasured, parseMeasuredShare, writtenNumber } from '../text/measured-text.ts';
import { nearest } from '../text/nearest.ts';
import { hasUnprintable, quoted } from '../text/printable.ts';
import { type Parsed, parseShare } from '../text/quantity-text.ts';
import { type ChangeNode, type Node, nodeName, type ScalarNode } from '../text/tree.ts';
import { DIMENSIONS, unitsOf, takes as unitsTaken } from '../text/units.ts';
import { note, type Reading, refuse, type Schema } from './schema.ts';

/** Limits, written as a file would write them. */
export interface Limits {
  readonly above?: string;
  readonly atLeast?: string;
  readonly below?: string;
  readonly atMost?: string;
}

/** A quantity of one dimension, in the unit used inside. */
export function quantity(dimension: Dimension, limits: Limits = {}): Schema<number> {
  const parse = (text: string, difference = false): Parsed => parseMeasured(text, dimension, difference);
  const { called } = DIMENSIONS[dimension];
  const takes = unitsTaken(dimension).replace(' takes ', ' in ') + limitsText(limits);
  return {
    takes,
    lone: false,
    read: (node, at) => readNumber(node, at, { takes, parse, limits, dimension }),
    jsonSchema: () => ({
      type: 'string',
      pattern: quantityPattern(dimension),
      examples: [exampleOf(unitsOf(dimension)[0]!, parse, limits)],
      title: called,
    }),
  };
}

/** A plain number or one in percent. */
export function share(limits: Limits = {}): Schema<number> {
  const takes = `a plain number or one in percent${limitsText(limits)}`;
  const number = { type: 'number', ...jsonLimits(limits) };
  const plain = '[0-9.]+([eE][+-]?[0-9]+)?\\s*(%|percent)?';
  const percent = { type: 'string', pattern: `^[+-]?${plain}(\\s*${ERROR_SIGN}\\s*${plain})?$` };
  return {
    takes,
    lone: false,
    read: (node, at) =>
      readNumber(node, at, {
        takes,
        parse: (text, difference = false) => (difference ? parseShare(text) : parseMeasuredShare(text)),
        limits,
        dimension: null,
      }),
    jsonSchema: () => ({ anyOf: [number, percent] }),
  };
}

/** A whole number. */
export function count(least: number, most: number): Schema<number> {
  const takes = `a whole number from ${least} to ${most}`;
  return {
    takes,
    read(node, at) {
      const value = node.kind === 'scalar' ? node.value : null;
      if (typeof value !== 'number' || !Number.isInteger(value) || value < least || value > most) {
        return refuse(at, node.place, `found ${found(node)}; it takes ${takes}`);
      }
      note(at, String(value));
      return value;
    },
    jsonSchema: () => ({ type: 'integer', minimum: least, maximum: most }),
  };
}

export const flag: Schema<boolean> = {
  takes: 'true or false',
  read(node, at) {
    const value = node.kind === 'scalar' ? node.value : null;
    if (typeof value !== 'boolean')
      return refuse(at, node.place, `found ${found(node)}; it takes true or false`);
    note(at, String(value));
    return value;
  },
  jsonSchema: () => ({ type: 'boolean' }),
};

/** One of a few words. */
export function choice<const W extends string>(...words: readonly W[]): Schema<W> {
  const takes = words.length === 1 ? `the word ${words[0]!}` : `one of ${words.join(', ')}`;
  return {
    takes,
    read(node, at) {
      const text = node.kind === 'scalar' ? node.text : null;
      const word = words.find((candidate) => candidate === text);
      if (word === undefined) {
        const near = text === null ? null : nearest(text, words);
        return refuse(
          at,
          node.place,
          `found ${found(node)}; it takes ${takes}`,
          near === null ? '' : `did you mean "${near}"?`,
        );
      }
      note(at, word);
      return word;
    },
    jsonSchema: () => ({ type: 'string', enum: words }),
  };
}

/** A name or a note; any characters but control characters, which only a note may have as line breaks. */
export function text(longest: number, lines: 'one line' | 'lines' = 'one line'): Schema<string> {
  const takes = `a text of at most ${longest} characters`;
  return {
    takes,
    read(node, at) {
      if (node.kind !== 'scalar' || node.value === null)
        return refuse(at, node.place, `found ${found(node)}; it takes ${takes}`);
      const value = node.text.trim();
      if (hasUnprintable(lines === 'lines' ? value.replaceAll(/[\t\r\n]/g, ' ') : value)) {
        return refuse(at, node.place, 'holds a control character', 'write it with visible characters only');
      }
      if ([...value].length > longest)
        return refuse(at, node.place, `has ${[...value].length} characters; it takes ${takes}`);
      if (value === '' && lines === 'one line')
        return refuse(at, node.place, 'is empty', 'give it a name or leave the key out');
      note(at, value);
      return value;
    },
    jsonSchema: () => ({ type: 'string', maxLength: longest }),
  };
}

/** Before a measuring error. */
const ERROR_SIGN = '(±|\\+/?-)';

type Parse = (text: string, difference?: boolean) => Parsed;

interface Numbers {
  readonly takes: string;
  readonly parse: Parse;
  readonly limits: Limits;
  /** Null: a share. */
  readonly dimension: Dimension | null;
}

function readNumber(
  node: Node,
  at: Reading,
  { takes, parse, limits, dimension }: Numbers,
): number | undefined {
  const changed = node.kind === 'change' ? changedNumber(node, at, takes, parse) : null;
  if (changed === undefined) return undefined;
  if (changed === null && !isWritten(node))
    return refuse(at, node.place, `found ${found(node)}; it takes ${takes}`);
  const written = changed ?? {
    text: (node as ScalarNode).text.trim(),
    parsed: parse((node as ScalarNode).text),
  };
  if (!written.parsed.ok) return refuse(at, node.place, written.parsed.message, written.parsed.hint);
  const value = limited(written.parsed, node, at, parse, limits);
  if (value === undefined) return undefined;
  const { unit, error } = written.parsed;
  const number = writtenNumber(value, unit, dimension);
  note(at, written.text, error === undefined ? undefined : { number, error, unit });
  return value;
}

interface Changed {
  readonly text: string;
  readonly parsed: Parsed & { readonly ok: true };
}

/** A stated or default quantity raised or lowered. */
function changedNumber(node: ChangeNode, at: Reading, takes: string, parse: Parse): Changed | undefined {
  const { base, amount } = node;
  if (base === null) {
    return refuse(
      at,
      node.place,
      'there is nothing to change: the file does not state it',
      `set it with "=", to ${takes}`,
    );
  }
  const start = base.kind === 'change' ? changedNumber(base, at, takes, parse) : baseOf(base, at, parse);
  if (!isWritten(amount)) return refuse(at, amount.place, `found ${found(amount)}; a change takes ${takes}`);
  const step = parse(amount.text, true);
  if (!step.ok) return refuse(at, amount.place, step.message, step.hint);
  if (start === undefined) return undefined;
  return {
    text: `${start.text} ${node.sign > 0 ? '+' : '-'} ${amount.text.trim()}`,
    parsed: { ...start.parsed, value: start.parsed.value + node.sign * step.value },
  };
}

function baseOf(base: Node, at: Reading, parse: Parse): Changed | undefined {
  if (!isWritten(base))
    return refuse(at, base.place, `only a single quantity can be raised or lowered, found ${nodeName(base)}`);
  const parsed = parse(base.text);
  return parsed.ok ? { text: base.text.trim(), parsed } : refuse(at, base.place, parsed.message, parsed.hint);
}

function outside(value: number, parse: Parse, limits: Limits): boolean {
  const bound = (written: string | undefined): number => {
    if (written === undefined) return Number.NaN;
    const parsed = parse(written);
    if (!parsed.ok) throw new Error(`limit ${written}: ${parsed.message}`);
    return parsed.value;
  };
  return (
    value <= bound(limits.above) ||
    value < bound(limits.atLeast) ||
    value >= bound(limits.below) ||
    value > bound(limits.atMost)
  );
}

function limited(
  { value, unit }: Parsed & { readonly ok: true },
  node: Node,
  at: Reading,
  parse: Parse,
  limits: Limits,
): number | undefined {
  if (!outside(value, parse, limits)) return value;
  const what = node.kind === 'change' ? 'the changed value' : found(node);
  return refuse(
    at,
    node.place,
    `${what} is out of range; it takes values${limitsText(unit === '%' ? inPercent(limits) : limits)}`,
  );
}

/** A round value within the limits, in the usual unit. */
function exampleOf(unit: string, parse: Parse, limits: Limits): string {
  const rounds = [10, 1, 100, 1000, 0.1].map((value) => `${value} ${unit}`);
  const ends = [limits.atLeast, limits.atMost].filter((text) => text !== undefined);
  const fits = [...rounds, ...ends].find((text) => {
    const parsed = parse(text);
    return parsed.ok && !outside(parsed.value, parse, limits);
  });
  return fits ?? rounds[0]!;
}

function limitsText(limits: Limits): string {
  const parts = [
    limits.above === undefined ? '' : `above ${limits.above}`,
    limits.atLeast === undefined ? '' : `from ${limits.atLeast}`,
    limits.below === undefined ? '' : `below ${limits.below}`,
    limits.atMost === undefined ? '' : `up to ${limits.atMost}`,
  ].filter((part) => part !== '');
  return parts.length === 0 ? '' : ` ${parts.join(' and ')}`;
}

/** Limits of a share as one who wrote percent reads them. */
function inPercent(limits: Limits): Limits {
  const percent = (text: string): string => `${Number((100 * Number(text)).toPrecision(12))} %`;
  return Object.fromEntries(Object.entries(limits).map(([key, text]) => [key, percent(text)]));
}

function jsonLimits(limits: Limits): Record<string, number> {
  const named = {
    exclusiveMinimum: limits.above,
    minimum: limits.atLeast,
    exclusiveMaximum: limits.below,
    maximum: limits.atMost,
  };
  const given = Object.entries(named).filter((pair): pair is [string, string] => pair[1] !== undefined);
  return Object.fromEntries(given.map(([key, value]) => [key, Number(value)]));
}

function quantityPattern(dimension: Dimension): string {
  const units = unitsOf(dimension).map((unit) => unit.replaceAll(/[()/]/g, '\\$&').replaceAll(' ', '\\s*'));
  const number = '([0-9]+\\.?[0-9]*|\\.[0-9]+)([eE][+-]?[0-9]+)?';
  const unit = units.join('|');
  // With its measuring error, the unit may stand behind both.
  const error = `\\s*(${unit})\\s*${ERROR_SIGN}\\s*${number}\\s*(${unit}|%|percent)`;
  const shared = `\\s*${ERROR_SIGN}\\s*${number}\\s*(${unit})`;
  return `^[+-]?${number}(\\s*(${unit})|${error}|${shared})$`;
}

/** Whether a node is a number or a text, which may hold a number. */
function isWritten(node: Node): node is ScalarNode {
  return node.kind === 'scalar' && (typeof node.value === 'number' || typeof node.value === 'string');
}

/** What was found, for a message. */
export function found(node: Node): string {
  return node.kind === 'scalar' && node.value !== null ? quoted(node.text) : nodeName(node);
}
