/** Ring: identity. A word that is to be pasted comes out of a shell as it went in; random words by fast-check, which prints the seed. */

import { execFileSync } from 'node:child_process';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { plainText } from '../../src/commands/frame/plain-text.ts';
import { shellFile, shellWord } from '../../src/commands/frame/shell-word.ts';

const throughShell = (command: string): string[] =>
  execFileSync('sh', ['-c', `for word in ${command}; do printf '%s\\0' "$word"; done`], { encoding: 'utf8' })
    .split('\0')
    .slice(0, -1);

test('random words pass a shell, each as one word', () => {
  const hostile = fc.constantFrom(
    '"',
    "'",
    '$(id)',
    '`id`',
    ' ',
    ';',
    '*',
    '\\',
    '!',
    '&',
    '|',
    '~',
    '#',
    '\u00e9',
    '-',
  );
  const words = fc.array(
    fc.array(fc.oneof(hostile, fc.string()), { minLength: 1 }).map((parts) => parts.join('')),
    {
      minLength: 1,
      maxLength: 20,
    },
  );
  fc.assert(
    fc.property(words, (list) => {
      const given = list.filter((word) => plainText(word) !== '');
      if (given.length === 0) return;
      expect(throughShell(given.map(shellWord).join(' '))).toEqual(given.map((word) => plainText(word)));
    }),
    { numRuns: 50 },
  );
});

test('plain words stay as they are, a name that begins with a hyphen is no flag', () => {
  expect(shellWord('cases/saltmarsh-125/draft-a.yaml')).toBe('cases/saltmarsh-125/draft-a.yaml');
  expect(shellWord("the club's")).toBe("'the club'\\''s'");
  expect(shellFile('-rf.yaml')).toBe('./-rf.yaml');
});
