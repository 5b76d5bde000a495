/**
 * A study file in: read by its schema, then held against the case that it names, so that a path that leads nowhere or a
 * value of the wrong kind is refused before anything runs, at its place in the study file.
 */

import { readdirSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import type { Case } from '../../model/case.ts';
import type { Study, StudyPipe, VariedQuantity } from '../../model/study.ts';
import { KINDS, saysKind } from '../keys/kinds.ts';
import { checked, type Judge } from '../keys/schema.ts';
import { caseOf, type OpenedFile, openFile, readAlone } from '../load.ts';
import { openSource } from '../text/document.ts';
import { CaseProblems, FileProblem, type Problem } from '../text/problem.ts';
import { type Node, spotOf } from '../text/tree.ts';
import { writeQuantity } from '../text/units.ts';
import { studySchema } from './study-schema.ts';

export interface StudyOptions {
  /** Overrides of the case, `path=value` each. */
  readonly set: readonly string[];
  /** Columns that a sweep has, for the score. */
  readonly columns: readonly string[];
}

/** A study with its case opened, from which every draft is made. */
export interface OpenedStudy {
  readonly study: Study;
  readonly opened: OpenedFile;
  readonly set: readonly string[];
  /** The case itself, overrides worked in. */
  readonly base: Case;
  /** The study's own file as a tree, for messages that come up later. */
  readonly root: Node;
}

/** A problem of a study that only its drafts bring to light, at a path of its file. */
export function studyProblem(
  { root }: OpenedStudy,
  path: readonly (string | number)[],
  message: string,
  hint = '',
): CaseProblems {
  const { place, labels } = spotOf(root, path);
  return new CaseProblems([{ place, message: `${labels.join('.')}: ${message}`, hint }]);
}

export function loadStudy(file: string, { set, columns }: StudyOptions): OpenedStudy {
  const name = basename(file, extname(file));
  const schema = checked(studySchema(name, columns), (stated, judge, node): OpenedStudy | undefined => {
    const opened = namedCase(stated.case, node, judge);
    if (opened === null) return undefined;
    if (opened.kind !== 'case')
      return judge.refuse(['case'], `names ${opened.kind === 'engine' ? 'an' : 'a'} ${opened.kind} file`);
    const base = caseOf(opened, set);
    const { case: caseFile, pipes: folder, vary: _, ...rest } = stated;
    const pipes = folder === null ? [] : pipesIn(folder, judge);
    const study: Study = { ...rest, caseFile, pipes };
    const lead = { study, opened, set, base, root: node };
    const sound = study.varied.map((quantity, index) => quantityFits(lead, quantity, index, judge));
    if (sound.includes(false) || (folder !== null && pipes.length === 0)) return undefined;
    return lead;
  });
  return readAlone(file, {}, schema);
}

/** The case that a study names; null, and said at its place, where it cannot be read or does not say what it is. */
function namedCase(file: string, node: Node, judge: Judge): OpenedFile | null {
  const { at } = judge;
  try {
    const { name, text } = openSource(file);
    if (KINDS.some((kind) => saysKind(text, kind))) return openFile(file);
    judge.refuse(['case'], `${name} is no case file`, 'a file that stands here begins with "kind: case"');
    return null;
  } catch (error) {
    if (!(error instanceof FileProblem)) throw error;
    const { place } = spotOf(node, ['case']);
    at.ledger.problems.push({ place, message: `case: ${error.message}`, hint: '', unreadable: file });
    return null;
  }
}

function pipesIn(folder: string, judge: Judge): readonly StudyPipe[] {
  const files = readdirSync(folder)
    .filter((name) => /\.ya?ml$/i.test(name))
    .sort();
  const pipes = files
    .map((name) => ({ name: basename(name, extname(name)), file: join(folder, name) }))
    .filter(({ file }) => saysKind(openSource(file).text, 'pipe') && openFile(file).kind === 'pipe');
  if (pipes.length === 0) judge.refuse(['pipes'], 'holds no pipe file (kind: pipe)');
  return pipes;
}

/** Overrides that give a varied quantity a value. */
export function overridesOf(quantity: VariedQuantity, value: number): readonly string[] {
  const text = valueText(quantity, value);
  const lowered = `${text.startsWith('-') ? '' : '-'}${text.replace(/^-/, '')}`;
  return [
    ...quantity.paths.map((path) => `${path} ${quantity.add ? '+=' : '='} ${text}`),
    ...quantity.opposite.map((path) => `${path} += ${lowered}`),
  ];
}

/** A value as it is put into the case: six figures, so that drafts can be typed in again. */
export function valueText({ dimension, unit }: VariedQuantity, value: number): string {
  return dimension === null ? String(Number(value.toPrecision(6))) : writeQuantity(value, dimension, unit, 6);
}

/** Tries a quantity's paths with its end values and refuses what can hold for no draft. */
function quantityFits(
  { opened, set }: OpenedStudy,
  quantity: VariedQuantity,
  index: number,
  judge: Judge,
): boolean {
  const { axis } = quantity;
  const ends = axis.kind === 'list' ? [axis.values[0], axis.values.at(-1)] : [axis.from, axis.to];
  const faults = ends.map((value) =>
    firstFault(opened, [...set, ...overridesOf(quantity, value as number)], quantity),
  );
  const wrongPath = faults.find((fault) => fault?.about === 'path');
  const wrongValue = faults.every((fault) => fault?.about === 'value') ? faults[0] : undefined;
  const fault = wrongPath ?? wrongValue;
  if (fault === undefined || fault === null) return true;
  const at =
    fault.about === 'path' ? pathPlace(quantity, fault.path) : axis.kind === 'list' ? ['values'] : ['from'];
  const message =
    fault.about === 'path' ? `there is no such quantity: ${fault.problem.message}` : fault.problem.message;
  judge.refuse(['vary', index, ...at], message, fault.problem.hint);
  return false;
}

interface Fault {
  readonly about: 'path' | 'value';
  readonly path: string;
  readonly problem: Problem;
}

/** The first problem that lies in a quantity's own overrides; what depends on the rest of the case is left to the drafts. */
function firstFault(
  opened: OpenedFile,
  overrides: readonly string[],
  quantity: VariedQuantity,
): Fault | null {
  const own = new Set([...quantity.paths, ...quantity.opposite]);
  try {
    caseOf(opened, overrides);
    return null;
  } catch (error) {
    if (!(error instanceof CaseProblems)) throw error;
    const faults = error.problems.flatMap((problem): Fault[] => {
      const { source, start } = problem.place;
      const path = source.text.split(/\s[+]?=\s/)[0] ?? '';
      if (source.name !== '--set' || !own.has(path)) return [];
      return [{ about: start < path.length ? 'path' : 'value', path, problem }];
    });
    return faults.find((one) => one.about === 'path') ?? faults[0] ?? null;
  }
}

function pathPlace(quantity: VariedQuantity, path: string): readonly (string | number)[] {
  const opposite = quantity.opposite.indexOf(path);
  if (opposite >= 0) return ['opposite', opposite];
  return quantity.paths.length === 1 ? ['path'] : ['paths', quantity.paths.indexOf(path)];
}
