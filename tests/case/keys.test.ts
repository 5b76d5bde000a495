/** Ring: identity. The list of keys tells of every key that a file is read by, and its examples are read. */

import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { KINDS } from '../../src/case/keys/kinds.ts';
import { newLedger } from '../../src/case/keys/schema.ts';
import { loadCase, readKind } from '../../src/case/load.ts';
import { KIND_SCHEMAS } from '../../src/case/schemas/json-schemas.ts';
import { EXAMPLE_PATHS } from '../../src/case/schemas/key-examples.ts';
import { keysOf, keysUnder } from '../../src/case/schemas/key-list.ts';
import { keysPage } from '../../src/case/schemas/keys-page.ts';
import { parseSource } from '../../src/case/text/document.ts';
import type { Problem } from '../../src/case/text/problem.ts';
import { CASES } from './files.ts';

/** What is said of the rest of a file that holds one key. */
const MISSING = /is missing|needs one of/;

/** A file of one key: `a.*.b` with a value is `{ a: [{ b: value }] }`. */
function nested([word, ...rest]: readonly string[], value: string): string {
  if (word === undefined) return value;
  const inner = nested(rest, value);
  return word === '*' ? `[${inner}]` : `{ ${word}: ${inner} }`;
}

const rows = Object.fromEntries(KINDS.map((kind) => [kind, keysOf(kind)]));

describe('the keys', () => {
  test.each(KINDS)('of a %s file each say what they are and what they take', (kind) => {
    expect(rows[kind]!.length).toBeGreaterThan(10);
    for (const { path, doc, takes } of rows[kind]!) {
      expect(doc, path).toMatch(/^[A-Z].*\.$/s);
      expect(takes.length, path).toBeGreaterThan(3);
    }
  });

  test('miss none of those that the example cases were read by', () => {
    const known = new Set(rows.case!.map(({ path }) => path));
    const cases = readdirSync(CASES, { recursive: true, encoding: 'utf8' }).filter(
      (name) => name.endsWith('.yaml') && readKind(join(CASES, name)) === 'case',
    );
    expect(cases.length).toBeGreaterThan(3);
    for (const name of cases)
      for (const { path } of loadCase(join(CASES, name)).inputs) {
        const parts = path.split('.');
        // An item goes by its name or number where the list has a star; a bare value may be the item itself.
        const fits = [...known].some((one) => {
          const pattern = one.split('.');
          const length = Math.min(pattern.length, parts.length);
          return (
            parts.length - pattern.length <= 1 &&
            pattern.length <= parts.length &&
            pattern.slice(0, length).every((word, k) => word === '*' || word === parts[k])
          );
        });
        expect(fits, `${name}: ${path}`).toBe(true);
      }
  });

  test('name those that stood in the schema alone: wall balance, silencer, ambient, disc, piston port, transfers', () => {
    const paths = rows.case!.map(({ path }) => path);
    for (const path of [
      'pipe.wall.balance.emissivity',
      'pipe.silencer.volume',
      'engine.ambient.pressure',
      'engine.intake.disc.opens',
      'engine.intake.pistonPort.duration',
      'engine.transfers.passage.length',
    ])
      expect(paths).toContain(path);
  });

  test('carry default, reason and limits', () => {
    const [courant] = keysUnder('case', 'run.courant');
    expect(courant).toMatchObject({ unstated: '0.95', needed: false, example: '0.95' });
    expect(courant!.takes).toMatch(/from 0\.05 and up to 1/);
    const [bore] = keysUnder('engine', 'bore');
    expect(bore).toMatchObject({ needed: true, unstated: null });
    expect(bore!.example).toMatch(/ mm$/);
  });

  test.each(KINDS)('of a %s file have examples that the reader takes as they are', (kind) => {
    const schema = KIND_SCHEMAS[kind];
    let read = 0;
    for (const { path, example } of rows[kind]!) {
      if (example === '' || path === 'kind') continue;
      const text = nested(path.split('.'), example);
      const problems: Problem[] = [];
      const root = parseSource({ name: path, folder: '', text }, (problem) => problems.push(problem));
      expect(problems, `${path}: ${example}`).toEqual([]);
      const ledger = newLedger();
      schema.read(root!, { ledger, path: '', assuming: null });
      // The file holds nothing but the key, so others are missing; of this one nothing may be said.
      const said = ledger.problems.map(({ message }) => message).filter((message) => !MISSING.test(message));
      expect(said, `${path}: ${example}`).toEqual([]);
      read += 1;
    }
    expect(read).toBeGreaterThan(10);
  });

  test('have no example of a key that is gone', () => {
    const paths = KINDS.flatMap((kind) => rows[kind]!.map(({ path }) => `${kind}.${path}`));
    for (const end of EXAMPLE_PATHS)
      expect(
        paths.some((path) => path === end || path.endsWith(`.${end}`)),
        end,
      ).toBe(true);
  });

  test('of one branch by its path, an item by its number', () => {
    const branch = keysUnder('engine', 'exhaust.windows.0');
    expect(branch.length).toBeGreaterThan(5);
    expect(branch.every(({ path }) => path.startsWith('exhaust.windows.*'))).toBe(true);
    expect(keysUnder('engine', 'nowhere')).toEqual([]);
  });

  test('all stand on the page', () => {
    const page = keysPage();
    for (const kind of KINDS)
      for (const { path } of rows[kind]!) expect(page).toContain(`<code>${path}</code>`);
  });
});
