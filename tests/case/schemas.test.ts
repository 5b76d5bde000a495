/** Ring: identity. The JSON Schemas come from the code that reads; every example fits them, and mistakes do not. */

import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { jsonSchemas } from '../../src/case/schemas/json-schemas.ts';
import { CASES, demo, replaced } from './files.ts';
import { fits } from './json-schema-check.ts';

const schemas = jsonSchemas();
const examples = readdirSync(CASES, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.yaml'))
  .map(
    (name) =>
      [name, parse(readFileSync(join(CASES, name), 'utf8')) as { kind: keyof typeof schemas }] as const,
  )
  .filter(([, value]) => value.kind in schemas);

describe('JSON Schemas', () => {
  test('there is one of each kind, with every default described', () => {
    expect(Object.keys(schemas)).toEqual(['engine', 'pipe', 'case', 'study', 'pulse', 'measured']);
    const text = JSON.stringify(schemas.engine);
    expect(text).toContain('Default 470 K: common practice, no source');
    expect(text).toContain('Blair 1996');
    expect(text).not.toContain('undefined');
  });

  test.each(examples)('%s fits', (_, value) => {
    expect(fits(value, schemas[value.kind])).toBe(true);
  });

  test.each([
    ['bore: 54 mm', 'bore: 54'],
    ['bore: 54 mm', 'bore: 54 bar'],
    ['bore: 54 mm', 'boer: 54 mm'],
    ['duration: 195 deg', 'duration: 195 deg\n      opens: 82 deg'],
    ['compression: { trapped: 7.5 }', 'compression: { trapped: 7.5, full: 14 }'],
    ['compression: 1.35', 'wallTemperature: 340 K'],
    ['count: 6', 'count: six'],
    ['kind: engine', 'kind: pipe'],
  ])('%s -> %s does not', (from, to) => {
    const value: unknown = parse(replaced(demo('engine.yaml'), [[from, to]]));
    expect(fits(value, schemas.engine)).toBe(false);
  });

  test.runIf(existsSync(new URL('../../dist/src/case/schemas/write-schemas.js', import.meta.url)))(
    'the build writes them',
    () => {
      const script = new URL('../../dist/src/case/schemas/write-schemas.js', import.meta.url).pathname;
      execFileSync(process.execPath, [script], { cwd: new URL('../..', import.meta.url).pathname });
      const written: unknown = JSON.parse(
        readFileSync(new URL('../../dist/schema/engine.json', import.meta.url), 'utf8'),
      );
      expect(written).toEqual(JSON.parse(JSON.stringify(schemas.engine)));
    },
  );
});
