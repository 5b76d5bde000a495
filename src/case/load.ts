/** Case files in: what the rest of the program calls. Throws `CaseProblems` or `FileProblem` and nothing else. */

import { basename, extname, isAbsolute, join } from 'node:path';
import { type CaseParts, caseSchema } from './case-schema.ts';
import { openSource, parseSource } from './document.ts';
import { engineSchema } from './engine-from-keys.ts';
import { KINDS, type Kind, kindOf } from './kinds.ts';
import type { AssumedInput, Case, Engine, Pipe, Pulse, UsedInput } from './model.ts';
import { applyOverride, type Override, parseOverride } from './override.ts';
import { pipeSchema } from './pipe-schema.ts';
import { quoted } from './printable.ts';
import { CaseProblems, type Problem } from './problem.ts';
import { pulseSchema } from './pulse-schema.ts';
import { type Ledger, newLedger, type Schema } from './schema.ts';
import { positionAt } from './source.ts';
import { entryOf, type MapNode, type Node, scalarText } from './tree.ts';

export interface LoadOptions {
  /** Overrides, `path=value` each, worked in one after another. */
  readonly set?: readonly string[];
}

/** A file read into its tree, from which many variations can be made without reading it again. */
export interface OpenedFile {
  readonly file: string;
  readonly kind: Kind;
  readonly root: MapNode;
  /** Engine and pipe files as they were when first read, so that a long study is not changed by an edit meanwhile. */
  readonly parts: Map<string, MapNode>;
}

const KNOWN_KINDS = `a case file says what it is: kind: ${KINDS.join(', ')}`;

/** Reads a file's text; what the keys hold is looked at later. */
export function openFile(file: string): OpenedFile {
  const problems: Problem[] = [];
  const { root, kind } = openTree(file, '', problems);
  if (root !== null && kind === null && problems.length === 0) {
    const { place } = entryOf(root, 'kind')!.node;
    const word = quoted(scalarText(entryOf(root, 'kind')!.node) ?? '');
    problems.push({ place, message: `kind: unknown kind ${word}`, hint: KNOWN_KINDS });
  }
  if (problems.length > 0 || kind === null || root === null) throw new CaseProblems(problems);
  return { file, kind, root, parts: new Map() };
}

/** What a file says it is. */
export function readKind(file: string): Kind {
  return openFile(file).kind;
}

export function loadCase(file: string, options: LoadOptions = {}): Case {
  return caseOf(openFile(file), options.set ?? []);
}

/** The case of an opened file with overrides worked in. */
export function caseOf(opened: OpenedFile, set: readonly string[]): Case {
  const names = { case: plainName(opened.file), engine: 'engine', pipe: 'pipe' };
  const ledger = newLedger();
  const overrides = readOverrides(set, ledger);
  const whole = (override: Override): boolean => override.path.length === 1;
  let root: Node = opened.root;
  for (const override of overrides.filter(whole))
    root = applyOverride(root, override, (problem) => ledger.problems.push(problem));
  const engine = namedFile(root, 'engine');
  const pipe = namedFile(root, 'pipe');
  const before = ledger.problems.length;
  root = graft(root, 'engine', engine, opened.parts, ledger);
  root = graft(root, 'pipe', pipe, opened.parts, ledger);
  if (ledger.problems.length > before) throw new CaseProblems(ledger.problems);
  for (const override of overrides.filter((one) => !whole(one))) {
    root = applyOverride(root, override, (problem) => ledger.problems.push(problem));
  }
  const fallback = {
    case: names.case,
    engine: engine === null ? names.case : plainName(engine.file),
    pipe: pipe === null ? names.case : plainName(pipe.file),
  };
  const parts: CaseParts = readWhole(caseSchema(fallback), root, ledger);
  return { ...parts, ...inputsOf(ledger) };
}

export function loadPulse(file: string, options: LoadOptions = {}): Pulse {
  return readAlone(file, options, pulseSchema(plainName(file)));
}

export function loadEngine(file: string, options: LoadOptions = {}): Engine {
  return readAlone(file, options, engineSchema(plainName(file)));
}

export function loadPipe(file: string, options: LoadOptions = {}): Pipe {
  return readAlone(file, options, pipeSchema(plainName(file)));
}

/** Reads a file of one kind by its schema, overrides worked in. */
export function readAlone<T>(file: string, options: LoadOptions, schema: Schema<T>): T {
  const opened = openFile(file);
  const ledger = newLedger();
  const report = (problem: Problem): void => void ledger.problems.push(problem);
  let root: Node = opened.root;
  for (const override of readOverrides(options.set ?? [], ledger))
    root = applyOverride(root, override, report);
  return readWhole(schema, root, ledger);
}

/** Every input as it was used, with the reason where it was assumed. */
export interface DescribedInput extends UsedInput {
  readonly reason: string;
  readonly sort: AssumedInput['sort'] | 'stated';
}

export function describeInputs(source: Case): readonly DescribedInput[] {
  const reasons = new Map(source.assumed.map((one) => [one.path, one]));
  return source.inputs.map((input) => {
    const assumption = input.assumed ? reasons.get(input.path) : undefined;
    return { ...input, reason: assumption?.reason ?? '', sort: assumption?.sort ?? 'stated' };
  });
}

function inputsOf(ledger: Ledger): Pick<Case, 'assumed' | 'inputs' | 'warnings'> {
  return { assumed: ledger.assumed, inputs: ledger.inputs, warnings: ledger.warnings };
}

function readWhole<T>(schema: Schema<T>, root: Node, ledger: Ledger): T {
  const value = schema.read(root, { ledger, path: '', assuming: null });
  if (value === undefined || ledger.problems.length > 0) throw new CaseProblems(ledger.problems);
  return value;
}

function readOverrides(set: readonly string[], ledger: Ledger): readonly Override[] {
  return set.flatMap((text) => parseOverride(text, (problem) => ledger.problems.push(problem)) ?? []);
}

function openTree(
  file: string,
  named: string,
  problems: Problem[],
): { root: MapNode | null; kind: Kind | null } {
  const source = openSource(file, named);
  const report = (problem: Problem): void => void problems.push(problem);
  const root = parseSource(source, report);
  if (root === null) return { root: null, kind: null };
  const top = { source, start: 0, end: Math.max(1, source.text.search(/[\r\n]|$/)) };
  if (root.kind !== 'map') {
    const message =
      source.text.trim() === '' ? 'the file is empty' : 'a case file is a group of keys, "key: value" each';
    report({ place: top, message, hint: KNOWN_KINDS });
    return { root: null, kind: null };
  }
  const kind = kindOf(root);
  if (entryOf(root, 'kind') === undefined)
    report({ place: top, message: 'kind is missing', hint: KNOWN_KINDS });
  return { root, kind };
}

interface NamedFile {
  readonly file: string;
  /** Where it is named, for the message when it cannot be read. */
  readonly named: string;
}

/** The file that a case names for its engine or pipe; null if it holds it inline. */
function namedFile(root: Node, key: 'engine' | 'pipe'): NamedFile | null {
  const node = entryOf(root, key)?.node;
  if (node?.kind !== 'scalar' || typeof node.value !== 'string' || node.text.trim() === '') return null;
  const { source, start } = node.place;
  const { line, column } = positionAt(source, start);
  const file = isAbsolute(node.text) ? node.text : join(source.folder, node.text);
  return { file, named: `${source.name}:${line}:${column}` };
}

function graft(
  root: Node,
  key: 'engine' | 'pipe',
  named: NamedFile | null,
  parts: Map<string, MapNode>,
  ledger: Ledger,
): Node {
  if (named === null || root.kind !== 'map') return root;
  const part = parts.get(named.file) ?? openTree(named.file, named.named, ledger.problems).root;
  if (part === null) return root;
  parts.set(named.file, part);
  return {
    ...root,
    entries: root.entries.map((entry) => (entry.key === key ? { ...entry, node: part } : entry)),
  };
}

function plainName(file: string): string {
  return basename(file, extname(file));
}
