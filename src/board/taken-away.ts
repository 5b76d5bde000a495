/**
 * What is taken away from a board: the pipe as a file, and the case as a file with everything inline, what was changed named
 * in its comments. Reading it gives the case that was computed.
 */

import { Document } from 'yaml';
import { pipeDocument } from '../case/pipe/pipe-document.ts';
import { applyOverride, parseOverride } from '../case/text/override.ts';
import type { Plain } from '../case/text/tree.ts';
import { itemLabel, type Node } from '../case/text/tree.ts';
import { writeQuantity } from '../case/text/units.ts';
import type { Case } from '../model/case.ts';
import type { Desk } from './desk.ts';

/** The text of a pipe file. */
export function pipeFile(subject: Case): string {
  const assumed = subject.assumed.some(({ path }) => path === 'pipe.wall');
  return pipeDocument(
    subject.pipe,
    `Pipe of ${subject.name}, from the board.`,
    assumed ? 'assumed' : 'stated',
  );
}

/** An input that differs from the base's. */
export interface Changed {
  readonly path: string;
  readonly before: string | null;
  readonly now: string | null;
}

/** Every input that is another than in the base, in the order of the keys. */
export function changedInputs(base: Case, now: Case): readonly Changed[] {
  const before = new Map(base.inputs.map(({ path, value }) => [path, value]));
  const after = new Map(now.inputs.map(({ path, value }) => [path, value]));
  const paths = [...new Set([...after.keys(), ...before.keys()])];
  return paths
    .map((path) => ({ path, before: before.get(path) ?? null, now: after.get(path) ?? null }))
    .filter((one) => one.before !== one.now);
}

/** The text of a case file. */
export function caseFile(desk: Desk, set: readonly string[], base: Case, subject: Case): string {
  const ignore = (): void => {};
  const root = set.reduce<Node>((tree, text) => {
    const override = parseOverride(text, ignore);
    return override === null ? tree : applyOverride(tree, override, ignore);
  }, desk.opened.root);
  const document = new Document(withRunAsShown(withHead(plain(root, '', subject), subject), desk, subject));
  const changes = changedInputs(base, subject).map(
    ({ path, before, now }) => ` ${path}: ${now ?? 'left out'}, before ${before ?? 'left out'}`,
  );
  document.commentBefore = [
    ' From the board.',
    ...(changes.length === 0 ? [] : [' Changed:', ...changes]),
  ].join('\n');
  return document.toString({ lineWidth: 0 });
}

/** A tree as plain data; a quantity that was raised or lowered stands as it is used. */
function plain(node: Node, path: string, subject: Case): Plain {
  const within = (key: string): string => (path === '' ? key : `${path}.${key}`);
  if (node.kind === 'scalar') return node.value;
  if (node.kind === 'list')
    return node.items.map((item, k) => plain(item, within(itemLabel(node.items, k)), subject));
  if (node.kind === 'map')
    return Object.fromEntries(
      node.entries.map(({ key, node: value }) => [key, plain(value, within(key), subject)]),
    );
  return subject.inputs.find((input) => input.path === path)?.value ?? null;
}

type Keys = Readonly<Record<string, Plain>>;

const keysOf = (value: Plain | undefined): Keys =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Keys) : {};

/** Where a roof was moved the head stays as it was: the file says so by the compression over the full stroke. */
function withHead(document: Plain, { engine }: Case): Keys {
  const keys = keysOf(document);
  const stated = keysOf(keys.engine);
  if (engine.compression.basis !== 'full' || 'full' in keysOf(stated.compression)) return keys;
  return { ...keys, engine: { ...stated, compression: { full: engine.compression.ratio } } };
}

/** Cells and speeds that the command line gave stand in the file. */
function withRunAsShown(keys: Keys, { carried }: Desk, { run }: Case): Keys {
  const given = {
    ...(carried.cell === null ? {} : { cell: writeQuantity(run.cell, 'length', 'mm') }),
    ...(carried.speeds === null ? {} : { speeds: run.speeds.map((rpm) => `${rpm} rpm`) }),
  };
  return Object.keys(given).length === 0 ? keys : { ...keys, run: { ...keysOf(keys.run), ...given } };
}
