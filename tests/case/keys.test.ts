/** Ring: identity. The list of keys tells of every key that a file is read by, and its examples are read. */

import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { KINDS } from '../../src/case/keys/kinds.ts';
import { loadCase, readKind } from '../../src/case/load.ts';
import { keysOf, keysUnder } from '../../src/case/schemas/key-list.ts';
import { keysPage } from '../../src/case/schemas/keys-page.ts';
import { CASES } from './files.ts';

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
