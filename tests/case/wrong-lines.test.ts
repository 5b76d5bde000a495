/** Ring: identity. Lines of a wrong shape are told in the words of whoever wrote them, with an example of a right one. */

import { expect, test } from 'vitest';
import { parseSource } from '../../src/case/text/document.ts';
import type { Problem } from '../../src/case/text/problem.ts';

const told = (text: string): readonly Problem[] => {
  const problems: Problem[] = [];
  parseSource({ name: 'pipe.yaml', folder: '', text }, (problem) => problems.push(problem));
  return problems;
};

/** What a programmer would say. */
const JARGON = /map|sequence|scalar|implicit|flow|compact|token|YAML|indicator|mapping/i;

test.each([
  ['a colon forgotten', 'bore 54 mm\nstroke: 54 mm\n', /no key with a colon/, /length: 90 mm/],
  [
    'no blank behind the colon',
    'kind: case\nengine:e.yaml\n',
    /no key with a colon/,
    /blank behind the colon/,
  ],
  ['two colons', 'name: my: pipe\n', /second colon/, /quotation marks/],
  ['keys in one line', 'a:\n  - name: header, length: 23 mm\n', /second colon/, /one key a line/],
  ['lines too far right', 'kind: case\n  name: mine\n', /begin too far right/, /one column/],
  ['a line between two columns', 'a:\n  - name: x\n   length: 2 mm\n', /another column/, /two blanks/],
  [
    'a bracket left open',
    'a: { name: x, diameter: [1 mm, 2 mm }\n',
    /bracket is not closed/,
    /\{ name: header/,
  ],
  ['a quotation mark left open', 'name: "abc\n', /quotation marks does not end/, /name: "my pipe"/],
  ['a sign that means something', 'name: @home\n', /cannot begin with this sign/, /quotation marks/],
  ['a tab', 'a:\n\tb: 1\n', /tab where the line begins/, /spaces/],
  ['a backslash', 'name: "C:\\dyno"\n', /backslash/, /single quotation marks/],
  ['a tag', 'name: !pipe x\n', /means nothing here/, /length: 90 mm/],
  ['a directive', '%x\nname: x\n', /.+/, /.+/],
])('%s', (_, text, message, hint) => {
  const problems = told(text);
  expect(problems.length).toBeGreaterThan(0);
  expect(problems[0]!.message).toMatch(message);
  expect(problems[0]!.hint).toMatch(hint);
  for (const problem of problems) expect(`${problem.message} ${problem.hint}`).not.toMatch(JARGON);
  const lines = problems.map(({ place }) => place.source.text.slice(0, place.start).split('\n').length);
  expect(new Set(lines).size, 'one for a line').toBe(lines.length);
});
