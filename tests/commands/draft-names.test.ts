/** Names of drafts beside one another. */

import { describe, expect, test } from 'vitest';
import { shortNames, uniqueNames } from '../../src/commands/frame/draft-names.ts';
import { bandFlag } from '../../src/commands/frame/flag-values.ts';
import { folded } from '../../src/commands/frame/folded.ts';

describe('names of drafts', () => {
  test('are told apart, also where one looks like a counted one', () => {
    expect(uniqueNames(['a', 'b', 'a', 'a'])).toEqual(['a', 'b', 'a (2)', 'a (3)']);
    expect(uniqueNames(['a (2)', 'a', 'a'])).toEqual(['a (2)', 'a', 'a (3)']);
  });

  test('lose what all begin with, in whole words, and never all of a name', () => {
    expect(shortNames(['Club 125, draft A', 'Club 125, draft B'])).toEqual(['draft A', 'draft B']);
    expect(shortNames(['Club draft A', 'Club draft B'])).toEqual(['A', 'B']);
    expect(shortNames(['Club 125', 'Club 1250'])).toEqual(['125', '1250']);
    expect(shortNames(['Club, ', 'Club, B'])).toEqual(['Club, ', 'Club, B']);
    expect(shortNames(['A', 'B'])).toEqual(['A', 'B']);
    expect(shortNames([])).toEqual([]);
  });
});

test('a band is two speeds, the lower first', () => {
  expect(bandFlag('9000:11000')).toEqual({ from: 9000, to: 11_000 });
  expect(bandFlag('9000 rpm:11000rpm')).toEqual({ from: 9000, to: 11_000 });
  for (const wrong of ['9000', '11000:9000', '9000:9000', '8000:9000:100', 'a:b', ':9000'])
    expect(() => bandFlag(wrong)).toThrow(expect.objectContaining({ exitCode: 2 }));
});

test('sentences are folded at blanks', () => {
  expect(folded('one two three', 8)).toBe('one two\nthree');
  expect(folded('unbreakable of', 5)).toBe('unbreakable\nof');
  expect(folded('')).toBe('');
});
