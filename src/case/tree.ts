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

/** Place of what a path of keys and indices leads to, or of the last thing on the way that exists. */
export function placeOf(node: Node, path: readonly (string | number)[]): Place {
  let at: Node = node;
  for (const step of path) {
    const next: Node | undefined = typeof step === 'number' ? itemsOf(at)[step] : entryOf(at, step)?.node;
    if (next === undefined) break;
    at = next;
  }
  return at.kind === 'map' || at.kind === 'list'
    ? { ...at.place, end: Math.min(at.place.end, lineEnd(at.place)) }
    : at.place;
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
