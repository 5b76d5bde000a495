/** Ring: identity. The scripts of the pages make no code from text: a page's policy forbids it, and it would fail unseen. */

import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const folder = new URL('../../dist/plots/bundle/', import.meta.url);
const scripts = readdirSync(folder).filter((name) => name.endsWith('.js'));
const codeFromText = /new Function\b|[^\w.]eval\(/;

test('there are scripts, and the search finds what it is for', () => {
  expect(scripts.length).toBeGreaterThan(5);
  expect(codeFromText.test('const f = new Function("a", "return a");')).toBe(true);
});

test.each(scripts)('%s makes none', (name) => {
  expect(codeFromText.test(readFileSync(new URL(name, folder), 'utf8'))).toBe(false);
});
