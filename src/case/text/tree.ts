/**
 * A case file as a tree of plain nodes, each knowing its place. Referenced files and `--set` arguments are grafted into
 * the same tree, so that one reader checks everything alike and every message points to where the text really stands.
 */

import type { Place } from './source.ts';

export interface ScalarNode {
  readonly kind: 'scalar';
  readonly place: Place;
  /** The value as YAML reads it. */
  readonly value: string | number | boolean | null;
  /** The text as written, without quotation marks. */
  readonly text: string;
}

export interface Entry {
  readonly key: string;
  readonly keyPlace: Place;
  readonly node: Node;
  /** Set on the command line: wins over the file's other keys of the same group of alternatives. */
  readonly override: boolean;
}

export interface MapNode {
  readonly kind: 'map';
  readonly place: Place;
  readonly entries: readonly Entry[];
}

export interface ListNode {
  readonly kind: 'list';
  readonly place: Place;
  readonly items: readonly Node[];
}

/** `base` raised or lowered by `amount`; without a base the default is changed. */
export interface ChangeNode {
  readonly kind: 'change';
  readonly place: Place;
  readonly base: Node | null;
  readonly sign: 1 | -1;
  readonly amount: Node;
}

export type Node = ScalarNode | MapNode | ListNode | ChangeNode;

export function entryOf(node: Node, key: string): Entry | undefined {
  return node.kind === 'map' ? node.entries.find((entry) => entry.key === key) : undefined;
}

export function emptyMap(place: Place): MapNode {
  return { kind: 'map', place, entries: [] };
}

/** The text of a scalar, or null for anything else. */
export function scalarText(node: Node | undefined): string | null {
  return node?.kind === 'scalar' ? node.text : null;
}

/** What a path of keys and indices leads to: its place, and its path with the names of items. */
export interface Spot {
  readonly place: Place;
  readonly labels: readonly string[];
}

/** The spot at the end of a path, placed at the last thing on the way that exists. */
export function spotOf(node: Node, path: readonly (string | number)[]): Spot {
  const labels: string[] = [];
  let at: Node | undefined = node;
  let last: Node = node;
  for (const step of path) {
    const items: readonly Node[] = at === undefined ? [] : itemsOf(at);
    labels.push(typeof step === 'number' && step < items.length ? itemLabel(items, step) : String(step));
    at = typeof step === 'number' ? items[step] : at === undefined ? undefined : entryOf(at, step)?.node;
    last = at ?? last;
  }
  return { place: firstLine(last), labels };
}

/** A group or list is pointed at by its first line. */
function firstLine(node: Node): Place {
  const { place } = node;
  return node.kind === 'map' || node.kind === 'list'
    ? { ...place, end: Math.min(place.end, lineEnd(place)) }
    : place;
}

function itemsOf(node: Node): readonly Node[] {
  return node.kind === 'list' ? node.items : [];
}

function lineEnd(place: Place): number {
  const end = place.source.text.slice(place.start).search(/[\r\n]/);
  return end < 0 ? place.source.text.length : place.start + end;
}

/** What a node is, in a word or two for a message. */
export function nodeName(node: Node): string {
  if (node.kind === 'map') return 'a group of keys';
  if (node.kind === 'list') return 'a list';
  if (node.kind === 'change') return 'a change';
  if (node.value === null) return 'nothing';
  return typeof node.value === 'string'
    ? 'a text'
    : typeof node.value === 'number'
      ? 'a number'
      : 'a yes-or-no';
}

/** What an item of a list is called in a path. */
export function itemLabel(items: readonly Node[], index: number): string {
  const names = items.map((item) => scalarText(entryOf(item, 'name')?.node));
  const name = names[index];
  const plain = name !== null && name !== undefined && /^[\p{L}][\p{L}\p{N} _-]*$/u.test(name);
  return plain && names.filter((other) => other === name).length === 1 ? name : String(index);
}

/** Values without their places. */
export type Plain = string | number | boolean | null | readonly Plain[] | { readonly [key: string]: Plain };

/** A tree as plain data. @throws TypeError at a value that is raised or lowered: that is no value yet */
export function plainOf(node: Node): Plain {
  if (node.kind === 'scalar') return node.value;
  if (node.kind === 'list') return node.items.map(plainOf);
  if (node.kind === 'map')
    return Object.fromEntries(node.entries.map(({ key, node: value }) => [key, plainOf(value)]));
  throw new TypeError('A value that is raised or lowered is no plain value.');
}
