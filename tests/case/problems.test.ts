/** Ring: identity. What the user sees for every kind of mistake: place, line, caret, what is allowed, what to do. */

import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { loadCase, loadPipe, readKind } from '../../src/case/load.ts';
import { type CaseProblems, FileProblem } from '../../src/case/text/problem.ts';
import { CASES, demo, type Edit, edited, file, problems, without } from './files.ts';

const ofEngine = (...edits: readonly Edit[]): string => problems(() => loadCase(edited({ engine: edits })));
const ofCase = (...edits: readonly Edit[]): string => problems(() => loadCase(edited({ case: edits })));

describe('rendering', () => {
  test('an unknown unit', () => {
    expect(ofEngine(['bore: 54 mm', 'bore: 54 mn'])).toBe(
      [
        'engine.yaml:4:7: engine.bore: "54 mn": unknown unit "mn"; a length takes mm, cm, m, in or um',
        '  4 | bore: 54 mn',
        '    |       ^^^^^',
        '  did you mean "54 mm"?',
      ].join('\n'),
    );
  });

  test('a missing unit, a misspelt key and a wrong dimension, all at once', () => {
    const message = ofEngine(
      ['bore: 54 mm', 'bore: 54'],
      ['stroke: 54.5 mm', 'strokee: 54.5 mm'],
      ['rod: 115 mm', 'rod: 115 bar'],
    );
    expect(message).toBe(
      [
        'engine.yaml:4:7: engine.bore: "54" has no unit; a length takes mm, cm, m, in or um',
        '  4 | bore: 54',
        '    |       ^^',
        '  did you mean "54 mm"?',
        '',
        'engine.yaml:5:1: engine: unknown key "strokee"',
        '  5 | strokee: 54.5 mm',
        '    | ^^^^^^^',
        '  did you mean "stroke"?',
        '',
        'engine.yaml:6:6: engine.rod: "115 bar" is a pressure; a length takes mm, cm, m, in or um',
        '  6 | rod: 115 bar',
        '    |      ^^^^^^^',
        '',
        '3 problems',
      ].join('\n'),
    );
  });

  test('what a misspelt key holds is looked at, and nothing is called missing for it', () => {
    const message = problems(() =>
      loadCase(edited({ case: [['engine:', 'engin:']], engine: [['bore: 54 mm', 'bore: 54']] })),
    );
    expect(message).toBe(
      [
        'draft-a.yaml:5:1: unknown key "engin"',
        '  5 | engin: engine.yaml',
        '    | ^^^^^',
        '  did you mean "engine"?',
        '',
        'engine.yaml:4:7: engine.bore: "54" has no unit; a length takes mm, cm, m, in or um',
        '  4 | bore: 54',
        '    |       ^^',
        '  did you mean "54 mm"?',
        '',
        '2 problems',
      ].join('\n'),
    );
  });

  test('a long hint keeps to 80 columns', () => {
    const lines = ofCase(['engine: engine.yaml\n', '']).split('\n').slice(3);
    expect(lines.length).toBeGreaterThan(3);
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  test('problems of the engine and of the pipe file come together', () => {
    const message = problems(() =>
      loadCase(edited({ engine: [['54 mm', '54']], pipe: [['length: 90 mm', 'length: -90 mm']] })),
    );
    expect(message).toContain('engine.yaml:4:7:');
    expect(message).toContain(
      [
        'pipe-a.yaml:8:28: pipe.sections.belly.length: "-90 mm" is out of range; it takes values above 0 mm and below 20 m',
        '  8 |   - { name: belly, length: -90 mm, diameter: same }',
        '    |                            ^^^^^^',
      ].join('\n'),
    );
    expect(message).toMatch(/\n\n2 problems$/);
  });

  test('YAML that is none', () => {
    expect(ofCase(['engine: engine.yaml', 'engine: [engine.yaml'])).toMatch(
      /^draft-a\.yaml:6:1: a bracket is not closed before this/,
    );
    expect(ofCase(['run:', 'name: twice\nrun:'])).toBe(
      [
        'draft-a.yaml:7:1: the key "name" stands twice in this group, first in line 3',
        '  7 | name: twice',
        '    | ^^^^',
        '  keep one of the two',
      ].join('\n'),
    );
  });

  test('aliases, a second document, an empty file, a list, no kind, an unknown kind', () => {
    expect(problems(() => loadPipe(file('a.yaml', 'kind: pipe\nname: &a x\nnote: *a\n')))).toContain(
      'a.yaml:3:7: anchors and aliases are not used in case files',
    );
    const two = problems(() => loadPipe(file('a.yaml', 'kind: pipe\n---\nkind: pipe\n')));
    expect(two).toContain('a.yaml:2:1: a second document begins here\n');
    expect(two).toContain('one case a file');
    expect(two).not.toMatch(/YAML\./);
    expect(problems(() => readKind(file('a.yaml', '')))).toContain('a.yaml:1:1: the file is empty');
    expect(problems(() => readKind(file('a.yaml', '- 1\n')))).toContain(
      'a.yaml:1:1: a case file is a group of keys',
    );
    expect(problems(() => readKind(file('a.yaml', 'name: x\n')))).toContain(
      'a.yaml:1:1: kind is missing\n  1 | name: x\n    | ^^^^^^^',
    );
    expect(problems(() => readKind(file('a.yaml', 'kind: engin\n')))).toContain(
      'a.yaml:1:7: kind: unknown kind "engin"\n  1 | kind: engin\n    |       ^^^^^\n  did you mean "engine"?',
    );
    expect(problems(() => readKind(file('a.yaml', 'kind: cse\n')))).toContain('did you mean "case"?');
    expect(problems(() => loadCase(file('a.yaml', demo('pipe-a.yaml'))))).toContain(
      'a.yaml:2:7: kind: this is a pipe file where a case is due',
    );
  });

  test('control characters of the file do not reach the terminal, and names may hold any letter', () => {
    const message = problems(() =>
      loadPipe(file('a.yaml', 'kind: pipe\nname: "a\\e[31m"\nstinger\u202e: \u009b31m\n')),
    );
    expect(message).toContain('name: holds a control character');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that there are none is the claim.
    expect(message).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
    const name = `<script>alert(1)</script> & "Söhne"`;
    expect(
      loadPipe(file('a.yaml', demo('pipe-a.yaml').replace('name: A, broad', `name: '${name}'`))).name,
    ).toBe(name);
  });

  test('a long line is shown around the caret', () => {
    const text = `kind: pipe\nsections: [${'{ name: header, length: 10 mm, diameter: 38 mm }, '.repeat(4)}{ name: header, length: 10 mn, diameter: 38 mm }]\n`;
    const [, line, carets] = problems(() => loadPipe(file('a.yaml', text))).split('\n');
    expect(line!.length).toBeLessThan(110);
    expect(line!.slice(carets!.indexOf('^'), carets!.lastIndexOf('^') + 1)).toBe('10 mn');
  });
});

describe('files that cannot be read', () => {
  test('missing, a folder, no text', () => {
    const refusal = (path: string): string => {
      try {
        loadCase(path);
      } catch (error) {
        expect(error).toBeInstanceOf(FileProblem);
        return without((error as Error).message);
      }
      return 'read';
    };
    expect(refusal('nowhere/case.yaml')).toBe('nowhere/case.yaml: no such file');
    expect(refusal(new URL('.', import.meta.url).pathname)).toMatch(/is a folder, not a file$/);
    expect(refusal(join(CASES, 'bench-250'))).toMatch(/; its case is .*bench-250.case\.yaml$/);
    expect(refusal(file('a.yaml', new Uint8Array([0x6b, 0xff, 0xfe])))).toBe('a.yaml: is not UTF-8 text');
    expect(refusal(edited({ case: [['engine.yaml', 'motor.yaml']] }))).toBe(
      'draft-a.yaml:5:9: engine: motor.yaml: no such file\n  5 | engine: motor.yaml\n    |         ^^^^^^^^^^',
    );
  });

  test('do not hide what is wrong elsewhere', () => {
    const both: readonly Edit[] = [
      ['engine.yaml', 'motor.yaml'],
      ['run:', 'runn:'],
    ];
    const message = problems(() =>
      loadCase(edited({ case: both, pipe: [['length: 90 mm', 'length: 90']] }), {
        set: ['engine.bore=50 mm'],
      }),
    );
    expect(message).toContain('draft-a.yaml:5:9: engine: motor.yaml: no such file');
    expect(message).toContain('unknown key "runn"');
    expect(message).toContain('pipe.sections.belly.length: "90" has no unit');
    expect(message).toMatch(/\n\n3 problems$/);
  });
});

test('of very many problems the first forty are shown, and reading stops at fifty', () => {
  const keys = Array.from({ length: 100 }, (_, index) => `k${index}: 1\n`).join('');
  const message = problems(() => loadPipe(file('a.yaml', `${demo('pipe-a.yaml')}${keys}`)));
  expect(message.match(/unknown key/g)).toHaveLength(40);
  expect(message).toMatch(/\n50 problems, the first 40 shown; reading stopped there$/);
});

test('the list of problems can be read by a program', () => {
  try {
    loadCase(edited({ engine: [['54 mm', '54']] }));
  } catch (error) {
    expect((error as CaseProblems).problems).toHaveLength(1);
    expect((error as CaseProblems).problems[0]).toMatchObject({ hint: 'did you mean "54 mm"?' });
  }
  expect.assertions(2);
});
