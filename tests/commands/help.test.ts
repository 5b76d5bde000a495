/** Help of every verb on the built program: it fits 80 columns, shows two examples, and names what the verb takes. */

import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { commonFlags } from '../../src/commands/frame/flags.ts';
import { textWidth } from '../../src/commands/frame/plain-text.ts';
import * as verbs from '../../src/commands/frame/verbs.ts';

const main = fileURLToPath(new URL('../../dist/src/main.js', import.meta.url));
const help = (...words: string[]): string =>
  execFileSync(process.execPath, [main, ...words, '--help'], { encoding: 'utf8' });

const overview = help();
const wired = Object.values(verbs).filter(({ name }) => new RegExp(`^  ${name}\\b`, 'm').test(overview));

function widest(text: string): number {
  return Math.max(...text.split('\n').map(textWidth));
}

test('the overview fits 80 columns', () => {
  expect(wired.length).toBeGreaterThan(0);
  expect(widest(overview)).toBeLessThanOrEqual(80);
});

describe.each(wired)('$name', (verb) => {
  const text = help(verb.name);

  test('fits 80 columns and names its flags', () => {
    expect(widest(text)).toBeLessThanOrEqual(80);
    for (const { syntax } of verb.flags) expect(text).toContain(syntax);
    for (const { member, syntax } of commonFlags) {
      const idle = verb.without?.[member] !== undefined || (member === 'threads' && verb.oneThread === true);
      expect(text.includes(syntax), syntax).toBe(!idle);
    }
  });

  test('shows its examples as they can be pasted', () => {
    const pasted = text.slice(text.indexOf('Examples:')).replaceAll(/ \\\n */g, ' ');
    for (const example of verb.examples) {
      expect(example.startsWith(`echocone ${verb.name}`)).toBe(true);
      expect(pasted).toContain(`  ${example}\n`);
    }
  });
});
