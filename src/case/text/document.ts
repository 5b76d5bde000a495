/**
 * YAML 1.2 text into the tree of nodes with their places. What YAML itself refuses (syntax, doubled keys, unknown tags) is
 * reported like every other problem; anchors and aliases are refused, so that each value stands where it is used.
 */

import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { isAlias, isMap, isScalar, isSeq, parseDocument, type Node as YamlNode } from 'yaml';
import { aliasProblem, refuseManyAliases } from './aliases.ts';
import { printable, quoted } from './printable.ts';
import { FileProblem, type Problem } from './problem.ts';
import { type Place, positionAt, type Source } from './source.ts';
import { type Entry, emptyMap, type MapNode, type Node } from './tree.ts';
import { yamlWords } from './yaml-words.ts';

/** Largest case file that is read [bytes]; a real one has a few thousand. */
const LARGEST = 2_000_000;

/** Deepest nesting that is read. */
const DEEPEST = 40;

/** The text of a file as a source. @throws FileProblem */
export function openSource(file: string): Source {
  const bytes = readPlainFile(file, LARGEST, 'case file');
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return { name: printable(file), folder: dirname(file), text };
  } catch {
    throw new FileProblem(file, `${printable(file)}: is not UTF-8 text`);
  }
}

/** The bytes of a plain file of at most so many; `called` is what it was to be. @throws FileProblem */
export function readPlainFile(file: string, largest: number, called: string): Buffer {
  const tooLarge = (): FileProblem =>
    new FileProblem(file, `${printable(file)}: larger than ${largest} bytes, no ${called}`);
  try {
    const kind = statSync(file);
    // A pipe or a device may never end, and is not opened to find out.
    if (kind.isDirectory())
      throw new FileProblem(file, `${printable(file)}: is a folder, not a file${caseWithin(file)}`);
    if (!kind.isFile())
      throw new FileProblem(file, `${printable(file)}: is no plain file (a pipe, a socket or a device)`);
    if (kind.size > largest) throw tooLarge();
    const bytes = readFileSync(file);
    if (bytes.length > largest) throw tooLarge();
    return bytes;
  } catch (error) {
    if (error instanceof FileProblem) throw error;
    throw new FileProblem(file, `${printable(file)}: ${reasonOf(error)}`);
  }
}

/** The case that `new` put into a folder, for who names the folder. */
function caseWithin(folder: string): string {
  const file = join(folder, 'case.yaml');
  return existsSync(file) ? `; its case is ${printable(file)}` : '';
}

function reasonOf(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : '';
  if (code === 'ENOENT' || code === 'ENOTDIR') return 'no such file';
  if (code === 'EISDIR') return 'is a folder, not a file';
  if (code === 'EACCES' || code === 'EPERM') return 'may not be read (permission denied)';
  return `could not be read (${printable(String(code || error))})`;
}

/**
 * The tree of a source; problems of the text go to `report`, and null comes back when nothing can be made of it. Only
 * the text from `from` on is read, the places staying those of the whole. `written`, where it is another text of the same
 * length, is what YAML gets to see.
 */
export function parseSource(
  source: Source,
  report: (problem: Problem) => void,
  from = 0,
  written = source.text,
): Node | null {
  const whole: Place = { source, start: from, end: source.text.length };
  const text = ' '.repeat(from) + written.slice(from);
  refuseManyAliases(source, text, report);
  try {
    const document = parseDocument(text, {
      version: '1.2',
      prettyErrors: false,
      strict: true,
      uniqueKeys: false,
    });
    const faults = [...document.errors, ...document.warnings];
    // What is missing at the end of the text is shown behind its last word.
    const last = Math.max(from, source.text.trimEnd().length);
    // One mistake is often several faults of its line to the library; the first says it.
    const told = new Set<number>();
    for (const fault of faults) {
      const [start, end] = fault.pos.map((offset) => Math.min(offset, last)) as [number, number];
      const { line } = positionAt(source, start);
      if (told.has(line)) continue;
      told.add(line);
      report({ place: { source, start, end }, ...yamlWords(fault) });
    }
    if (faults.length > 0) return null;
    return convert(document.contents, { source, report, depth: 0 }, whole);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    report({ place: whole, message: 'nested too deeply', hint: '' });
    return null;
  }
}

interface Conversion {
  readonly source: Source;
  readonly report: (problem: Problem) => void;
  readonly depth: number;
}

function convert(node: YamlNode | null, at: Conversion, fallback: Place): Node {
  const [start, end] = node?.range ?? [fallback.start, fallback.end];
  const place: Place = { source: at.source, start, end };
  if (at.depth > DEEPEST) {
    at.report({ place, message: `nested more than ${DEEPEST} deep`, hint: '' });
    return emptyMap(place);
  }
  const inner = { ...at, depth: at.depth + 1 };
  if (node === null) return { kind: 'scalar', place, value: null, text: '' };
  if (isAlias(node)) {
    at.report(aliasProblem(place));
    return { kind: 'scalar', place, value: null, text: '' };
  }
  if (isSeq(node)) {
    return {
      kind: 'list',
      place,
      items: node.items.map((item) => convert(item as YamlNode | null, inner, place)),
    };
  }
  if (isMap(node)) return convertMap(node.items as unknown as readonly YamlPair[], inner, place);
  const value: unknown = isScalar(node) ? node.value : null;
  const source = isScalar(node) ? (node.source ?? '') : '';
  if (typeof value === 'number' || typeof value === 'bigint')
    return { kind: 'scalar', place, value: Number(value), text: source };
  if (typeof value === 'boolean') return { kind: 'scalar', place, value, text: source };
  if (typeof value === 'string') return { kind: 'scalar', place, value, text: value };
  return { kind: 'scalar', place, value: null, text: source };
}

interface YamlPair {
  readonly key: YamlNode | null;
  readonly value: YamlNode | null;
}

function convertMap(pairs: readonly YamlPair[], at: Conversion, place: Place): MapNode {
  const entries: Entry[] = [];
  const seen = new Map<string, number>();
  for (const { key, value } of pairs) {
    const [start, end] = key?.range ?? [place.start, place.start];
    const keyPlace: Place = { source: at.source, start, end };
    if (!isScalar(key)) {
      at.report({ place: keyPlace, message: 'a key must be a word', hint: '' });
      continue;
    }
    const name = typeof key.value === 'string' ? key.value : (key.source ?? '');
    const first = seen.get(name);
    if (first !== undefined) {
      const { line } = positionAt(at.source, first);
      const message = `the key ${quoted(name)} stands twice in this group, first in line ${line}`;
      at.report({ place: keyPlace, message, hint: 'keep one of the two' });
      continue;
    }
    seen.set(name, start);
    const after: Place = { source: at.source, start: end, end };
    entries.push({ key: name, keyPlace, node: convert(value, at, after), override: false });
  }
  return { kind: 'map', place, entries };
}
