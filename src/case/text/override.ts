/**
 * `--set path=value`: the value takes the place of what the file has, or is added, as if the file said so; `+=` and `-=`
 * raise and lower a quantity. The path goes by the keys of the case, through the engine and the pipe it names; items of a
 * list go by number or by their name (`engine.exhaust.windows.main.width += 2 mm`). A part with a dot or an equals sign in
 * its name is put in quotation marks.
 */

import { parseSource } from './document.ts';
import { nearest } from './nearest.ts';
import { printable, quoted } from './printable.ts';
import type { Problem } from './problem.ts';
import type { Place, Source } from './source.ts';
import { type Entry, emptyMap, entryOf, type MapNode, type Node, scalarText } from './tree.ts';

export interface Override {
  readonly path: readonly Step[];
  /** Replace, raise or lower. */
  readonly action: '=' | '+=' | '-=';
  readonly value: Node;
  readonly place: Place;
}

interface Step {
  readonly key: string;
  readonly place: Place;
}

type Report = (problem: Problem) => void;

const STEP = /\s*(?:"([^"]*)"|'([^']*)'|([^.=+"'[\]]*?))\s*(\.|\[|\]\.?|\+=|-=|=|$)/y;

/** Reads one argument of a flag; null if it is not of the form path=value. */
export function parseOverride(text: string, report: Report, flag = '--set'): Override | null {
  const source: Source = { name: flag, folder: '.', text };
  const path: Step[] = [];
  let action = '';
  let at = 0;
  while (action === '') {
    STEP.lastIndex = at;
    const match = STEP.exec(text);
    if (match === null || match[4] === '') return malformed(source, at, report);
    const [whole, double, single, plain, mark] = match;
    const trailing = mark!.endsWith('=') && plain === '-' ? '' : plain;
    const key = double ?? single ?? trailing ?? '';
    const start = at + whole.indexOf(key);
    if (key !== '') path.push({ key, place: { source, start, end: start + key.length } });
    else if (path.length === 0 || text[at - 1] !== ']') return malformed(source, at, report);
    if (mark!.endsWith('=')) action = mark!;
    at = STEP.lastIndex;
  }
  if (text.slice(at).trim() === '') return malformed(source, text.length, report);
  const value = parseSource(source, report, at);
  if (value === null) return null;
  const place: Place = { source, start: 0, end: text.length };
  return { path, action: action as Override['action'], value, place };
}

function malformed(source: Source, at: number, report: Report): null {
  report({
    place: { source, start: at, end: source.text.length },
    message: 'an override is written path=value',
    hint: 'like --set "engine.exhaust.windows.0.width=42 mm" or --set "pipe.sections.header.length += 10 mm"',
  });
  return null;
}

/** The tree with an override worked in. */
export function applyOverride(root: Node, override: Override, report: Report): Node {
  return overridden(root, 0, override, report);
}

function overridden(node: Node | null, depth: number, override: Override, report: Report): Node {
  const step = override.path[depth];
  if (step === undefined) return outcome(node, override);
  if (node?.kind === 'list') {
    const index = itemIndex(node.items, step.key);
    const old = index === null ? undefined : node.items[index];
    if (old === undefined) {
      reportItem(node.items, step, report);
      return node;
    }
    const changed = overridden(old, depth + 1, override, report);
    return { ...node, items: node.items.map((item) => (item === old ? changed : item)) };
  }
  const map = asMap(node, step);
  const old = entryOf(map, step.key);
  const changed = overridden(old?.node ?? null, depth + 1, override, report);
  const entry: Entry = {
    key: step.key,
    keyPlace: old?.keyPlace ?? step.place,
    node: changed,
    override: true,
  };
  const entries =
    old === undefined ? [...map.entries, entry] : map.entries.map((other) => (other === old ? entry : other));
  return { ...map, entries };
}

function outcome(node: Node | null, { action, value, place }: Override): Node {
  if (action === '=') return value;
  return { kind: 'change', place, base: node, sign: action === '+=' ? 1 : -1, amount: value };
}

/** What a path goes through: a group stays one; `open` is `{ open: {} }` to a path through `open`; else a new group. */
function asMap(node: Node | null, step: Step): MapNode {
  if (node?.kind === 'map') return node;
  const word = node === null ? null : scalarText(node);
  if (word !== step.key) return emptyMap(step.place);
  const entry: Entry = { key: word, keyPlace: step.place, node: emptyMap(step.place), override: true };
  return { kind: 'map', place: step.place, entries: [entry] };
}

/** Place of an item in a list, by its number, its name or its role; null: there is none, or more than one. */
export function itemIndex(items: readonly Node[], key: string): number | null {
  if (/^\d+$/.test(key)) return Number(key);
  for (const property of ['name', 'role']) {
    const fitting = items.flatMap((item, index) =>
      scalarText(entryOf(item, property)?.node) === key ? [index] : [],
    );
    if (fitting.length === 1) return fitting[0]!;
  }
  return null;
}

function reportItem(items: readonly Node[], step: Step, report: Report): void {
  const all = items.map((item) => scalarText(entryOf(item, 'name')?.node));
  const names = all.filter((name) => name !== null);
  if (names.includes(step.key)) {
    const numbers = all.flatMap((name, index) => (name === step.key ? [index] : []));
    const message = `${quoted(step.key)} names more than one item of this list: ${numbers.join(' and ')} (from 0)`;
    report({ place: step.place, message, hint: 'go by the number, or give each a name of its own' });
    return;
  }
  const near = nearest(step.key, names);
  const known = names.length > 0 ? `, named ${names.map(printable).join(', ')}` : '';
  const message = `no item ${quoted(step.key)} in this list; it has ${items.length} (from 0)${known}`;
  report({ place: step.place, message, hint: near === null ? '' : `did you mean "${printable(near)}"?` });
}
