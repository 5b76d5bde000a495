/** Case files in: what the rest of the program calls. Throws `CaseProblems` or `FileProblem` and nothing else. */

import { basename, extname, isAbsolute, join } from 'node:path';
import type { Case } from '../model/case.ts';
import type { Engine } from '../model/engine.ts';
import type { AssumedInput, UsedInput } from '../model/inputs.ts';
import type { Pipe } from '../model/pipe.ts';
import type { Pulse } from '../model/pulse.ts';
import { CASE_KEYS, type CaseParts, caseSchema } from './engine/case-schema.ts';
import { engineSchema } from './engine/engine-from-keys.ts';
import { withHeadOf, withoutRoofs } from './engine/kept-head.ts';
import { KINDS, type Kind, kindHint, kindOf, saysKind } from './keys/kinds.ts';
import { type Ledger, newLedger, type Schema } from './keys/schema.ts';
import { pipeSchema } from './pipe/pipe-schema.ts';
import { pulseSchema } from './pulse/pulse-schema.ts';
import { withSigns } from './text/bracketed-units.ts';
import { openSource, parseSource } from './text/document.ts';
import { nearest } from './text/nearest.ts';
import { applyOverride, type Override, parseOverride } from './text/override.ts';
import { quoted } from './text/printable.ts';
import { addProblem, CaseProblems, FileProblem, type Problem, problemsOf } from './text/problem.ts';
import type { Place, Source } from './text/source.ts';
import { type Entry, entryOf, type MapNode, type Node, scalarText } from './text/tree.ts';

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
  const { root, kind } = openTree(file, problems);
  if (root !== null && kind === null && problems.length === 0) {
    const { node } = entryOf(root, 'kind')!;
    const word = scalarText(node) ?? '';
    problems.push({
      place: node.place,
      message: `kind: unknown kind ${quoted(word)}`,
      hint: kindHint(word),
    });
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

/** The case of an opened file with overrides worked in; one that moves an exhaust roof leaves the head as it is. */
export function caseOf(opened: OpenedFile, set: readonly string[]): Case {
  const subject = asSet(opened, set);
  const others = withoutRoofs(readOverrides(set, newLedger()), set);
  if (others === null) return subject;
  try {
    return withHeadOf(subject, asSet(opened, others));
  } catch (error) {
    // Without the override there is no engine, so no head that could have been kept.
    if (error instanceof CaseProblems) return subject;
    throw error;
  }
}

/** The case with overrides as they say, a trapped compression kept as a number. */
function asSet(opened: OpenedFile, set: readonly string[]): Case {
  const names = { case: plainName(opened.file), engine: 'engine', pipe: 'pipe' };
  const ledger = newLedger();
  const overrides = readOverrides(set, ledger);
  const { engine, pipe, ...inline } = inlined(opened, overrides, ledger);
  let { root } = inline;
  // What would go into a file that could not be read has nowhere to go.
  const unread = [engine, pipe].flatMap((one) =>
    one !== null && !opened.parts.has(one.file) ? [one.key, one.spelt] : [],
  );
  for (const override of overrides.filter((one) => !isWhole(one) && !unread.includes(one.path[0]!.key))) {
    root = applyOverride(root, override, (problem) => addProblem(ledger.problems, problem));
  }
  const fallback = {
    case: names.case,
    engine: engine === null ? names.case : plainName(engine.file),
    pipe: pipe === null ? names.case : plainName(pipe.file),
  };
  const parts: CaseParts = readWhole(caseSchema(fallback), root, ledger);
  return { ...parts, ...inputsOf(ledger) };
}

/** An override of a whole part of the case. */
const isWhole = (override: Override): boolean => override.path.length === 1;

/** The case's tree with whole parts overridden and the files that it names in the place of their names. */
function inlined(opened: OpenedFile, overrides: readonly Override[], ledger: Ledger) {
  let root: Node = opened.root;
  for (const override of overrides.filter(isWhole))
    root = applyOverride(root, override, (problem) => addProblem(ledger.problems, problem));
  const engine = namedFile(root, 'engine');
  const pipe = namedFile(root, 'pipe');
  root = graft(root, engine, opened.parts, ledger);
  root = graft(root, pipe, opened.parts, ledger);
  return { root, engine, pipe };
}

/** The tree of a case that names no file, and the overrides that are still to be worked in. @throws CaseProblems */
export function inlineRoot(
  opened: OpenedFile,
  set: readonly string[],
): { readonly root: Node; readonly rest: readonly string[] } {
  const ledger = newLedger();
  const overrides = readOverrides(set, ledger);
  const { root } = inlined(opened, overrides, ledger);
  if (ledger.problems.length > 0) throw problemsOf(ledger.problems);
  return { root, rest: set.filter((text) => !readOverrides([text], ledger).some(isWhole)) };
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
  const report = (problem: Problem): void => addProblem(ledger.problems, problem);
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
  if (value === undefined || ledger.problems.length > 0) throw problemsOf(ledger.problems);
  return value;
}

function readOverrides(set: readonly string[], ledger: Ledger): readonly Override[] {
  return set.flatMap((text) => parseOverride(text, (problem) => addProblem(ledger.problems, problem)) ?? []);
}

function openTree(file: string, problems: Problem[]): { root: MapNode | null; kind: Kind | null } {
  return treeOf(openSource(file), problems);
}

function treeOf(source: Source, problems: Problem[]): { root: MapNode | null; kind: Kind | null } {
  const report = (problem: Problem): void => addProblem(problems, problem);
  // Measurements name columns with their units in brackets, which YAML would take for lists.
  const text = saysKind(source.text, 'measured') ? withSigns(source.text) : source.text;
  const root = parseSource(source, report, 0, text);
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
  readonly key: 'engine' | 'pipe';
  /** The key as it is written, perhaps misspelt. */
  readonly spelt: string;
  /** Where it is named. */
  readonly place: Place;
}

/** The file that a case names for its engine or pipe; null if it holds it inline. */
function namedFile(root: Node, key: 'engine' | 'pipe'): NamedFile | null {
  const entry = entryOf(root, key) ?? misspeltEntry(root, key);
  const node = entry?.node;
  if (node?.kind !== 'scalar' || typeof node.value !== 'string' || node.text.trim() === '') return null;
  const { source } = node.place;
  const file = isAbsolute(node.text) ? node.text : join(source.folder, node.text);
  return { file, key, spelt: entry!.key, place: node.place };
}

function misspeltEntry(root: Node, key: string): Entry | undefined {
  if (root.kind !== 'map') return undefined;
  return root.entries.find(
    (entry) => !CASE_KEYS.includes(entry.key) && nearest(entry.key, CASE_KEYS) === key,
  );
}

/**
 * A named file's tree; null where it has problems. Lines of a file that does not say that it is of the kind asked for are
 * not shown: it may hold anything.
 */
function readPart({ file, key, place }: NamedFile, ledger: Ledger): MapNode | null {
  const problems: Problem[] = [];
  const source = openSource(file);
  let root: MapNode | null = null;
  try {
    root = treeOf(source, problems).root;
  } catch (error) {
    if (!(error instanceof CaseProblems)) throw error;
  }
  const says = saysKind(source.text, key);
  if (root !== null && (says || kindOf(root) === key)) return root;
  if (says) for (const problem of problems) addProblem(ledger.problems, problem);
  else
    addProblem(ledger.problems, {
      place,
      message: `${key}: ${source.name} is no ${key} file`,
      hint: `a file that stands here begins with "kind: ${key}"`,
    });
  return null;
}

/** The tree with a named file in the place of its name; what cannot be read is reported where it is named. */
function graft(root: Node, named: NamedFile | null, parts: Map<string, MapNode>, ledger: Ledger): Node {
  if (named === null || root.kind !== 'map') return root;
  const { file, key, spelt, place } = named;
  let part = parts.get(file) ?? null;
  try {
    part ??= readPart(named, ledger);
  } catch (error) {
    if (!(error instanceof FileProblem)) throw error;
    ledger.problems.push({ place, message: `${key}: ${error.message}`, hint: '', unreadable: file });
  }
  if (part === null) return root;
  parts.set(file, part);
  return {
    ...root,
    entries: root.entries.map((entry) => (entry.key === spelt ? { ...entry, node: part } : entry)),
  };
}

function plainName(file: string): string {
  return basename(file, extname(file));
}
