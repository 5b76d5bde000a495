/** Ring: identity. Study files: what they become, and what is refused before anything runs, at its place. */

import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { loadStudy, overridesOf } from '../../src/case/study/study-load.ts';
import { SCORE_COLUMNS } from '../../src/study/work/score.ts';
import { CASES, DRAFTS, demo, file, problems } from './files.ts';

const load = (path: string, set: readonly string[] = []) => loadStudy(path, { set, columns: SCORE_COLUMNS });

const TEXT = `kind: study
case: ${join(CASES, 'saltmarsh-125/draft-a.yaml')}
vary:
  - { path: pipe.sections.baffle.length, from: 160 mm, to: 24 cm, step: 20 mm }
constraints: {}
speeds: [9000 rpm, 10000 rpm, 11000 rpm]
score:
  - averageTorque: { from: 9000 rpm, to: 11000 rpm }
`;

function study(...edits: readonly (readonly [string, string])[]): string {
  const text = edits.reduce((current, [from, to]) => {
    if (!current.includes(from)) throw new Error(`no ${from}`);
    return current.replace(from, () => to);
  }, TEXT);
  return file('study.yaml', text);
}

describe('a study', () => {
  test('reads units, ranges and defaults', () => {
    const { study: read, base } = load(study(['constraints: {}', 'cell: 8 mm']));
    expect(read.varied).toEqual([
      {
        name: 'baffle length',
        paths: ['pipe.sections.baffle.length'],
        opposite: [],
        add: false,
        dimension: 'length',
        unit: 'mm',
        axis: { kind: 'range', from: 0.16, to: 0.24, step: 0.02 },
      },
    ]);
    expect(read.speeds).toEqual([9000, 10000, 11000]);
    expect([read.cell, read.sample.kind, read.outside, read.screen]).toEqual([0.008, 'grid', 'skip', null]);
    expect(read.score).toEqual([{ kind: 'averageTorque', from: 9000, to: 11000, weight: 1 }]);
    expect(base.engine.bore).toBe(0.054);
  });

  test('works overrides into its case', () => {
    expect(load(study(), ['engine.bore=55 mm']).base.engine.bore).toBe(0.055);
  });

  test('ties paths, and moves a joint without making the pipe longer', () => {
    const { study: read } = load(
      study([
        'path: pipe.sections.baffle.length, from: 160 mm, to: 24 cm, step: 20 mm',
        'paths: [pipe.sections.header.length], opposite: [pipe.sections.belly.length], add: true, values: [-20 mm, 20 mm]',
      ]),
    );
    expect(overridesOf(read.varied[0]!, 0.02)).toEqual([
      'pipe.sections.header.length += 20 mm',
      'pipe.sections.belly.length += -20 mm',
    ]);
    expect(overridesOf(read.varied[0]!, -0.02)[1]).toBe('pipe.sections.belly.length += 20 mm');
  });

  test('of a folder takes its pipe files', () => {
    const { study: read } = load(
      study([
        'vary:\n  - { path: pipe.sections.baffle.length, from: 160 mm, to: 24 cm, step: 20 mm }',
        `pipes: ${join(DRAFTS, 'saltmarsh-125')}`,
      ]),
    );
    expect(read.pipes.map(({ name }) => name)).toEqual(['pipe-a', 'pipe-b', 'pipe-c']);
  });

  test.each(readdirSync(join(CASES, 'studies')).filter((name) => name.endsWith('.yaml')))(
    '%s loads',
    (name) => {
      const stated = /^name: (.+)$/m.exec(readFileSync(join(CASES, 'studies', name), 'utf8'))?.[1];
      expect(load(join(CASES, 'studies', name)).study.name).toBe(stated);
    },
  );
});

describe('a file of another kind that a study names', () => {
  const secret = 'top: secret\n  word: [unclosed\n';

  test('as its case has none of its lines shown', () => {
    const path = file('secret.txt', secret);
    const message = problems(() => load(study([join(CASES, 'saltmarsh-125/draft-a.yaml'), path])));
    expect(message).toMatch(/^study\.yaml:2:7: case: .*secret\.txt is no case file/);
    expect(message).not.toMatch(/top|unclosed/);
  });

  test('in its folder of pipes is passed over', () => {
    const folder = join(file('notes.yaml', secret), '..', 'pipes');
    mkdirSync(folder);
    file('pipes/notes.yaml', secret);
    file('pipes/one.yaml', demo('pipe-a.yaml'));
    const { study: read } = load(
      study([
        'vary:\n  - { path: pipe.sections.baffle.length, from: 160 mm, to: 24 cm, step: 20 mm }',
        `pipes: ${folder}`,
      ]),
    );
    expect(read.pipes.map(({ name }) => name)).toEqual(['one']);
  });
});

describe('refused before anything runs', () => {
  test('with line, column and caret', () => {
    expect(problems(() => load(study(['baffle.length', 'bafle.length'])))).toBe(
      [
        'study.yaml:4:13: vary.0.path: there is no such quantity: no item "bafle" in this list; it has 6 (from 0), named header, diffuser 1, diffuser 2, belly, baffle, stinger',
        '  4 |   - { path: pipe.sections.bafle.length, from: 160 mm, to: 24 cm, step: 2…',
        '    |             ^^^^^^^^^^^^^^^^^^^^^^^^^^',
        '  did you mean "baffle"?',
      ].join('\n'),
    );
  });

  test.each<[string, readonly [string, string][], RegExp]>([
    ['an unknown key of the case', [['baffle.length', 'baffle.lenght']], /:4:13: .*unknown key "lenght"/],
    [
      'an unknown group',
      [['pipe.sections.baffle.length', 'pip.length']],
      /there is no such quantity: unknown key "pip"/,
    ],
    [
      'a value of another kind',
      [['from: 160 mm, to: 24 cm, step: 20 mm', 'values: [1 bar, 2 bar]']],
      /"1 bar" is a pressure; a length takes mm/,
    ],
    [
      'a range of two kinds',
      [['24 cm', '24 bar']],
      /vary\.0\.to: 24 bar is no quantity of the same kind as 160 mm/,
    ],
    [
      'a range whose first value lacks the unit',
      [['from: 160 mm, to', 'from: 160, to']],
      /:4:\d+: vary\.0\.from: 160 has no unit\n.*from: 160,.*\n.*\n {2}did you mean "160 cm"\?/,
    ],
    [
      'a list of which one lacks the unit',
      [['from: 160 mm, to: 24 cm, step: 20 mm', 'values: [1 mm, 2]']],
      /vary\.0\.values\.1: 2 has no unit/,
    ],
    [
      'a screen that keeps more than there is',
      [['constraints: {}', 'screen: { cell: 15 mm, speeds: [10000 rpm], keep: 125 % }']],
      /screen\.keep: "125 %" is out of range; it takes values above 0 % and below 100 %/,
    ],
    [
      'an empty range',
      [['from: 160 mm', 'from: 300 mm']],
      /:4:\d+: vary\.0\.to: the range is empty: it runs from 300 mm to 24 cm/,
    ],
    ['a step of nothing', [['step: 20 mm', 'step: 0 mm']], /0 mm is no step/],
    ['a step beyond the range', [['step: 20 mm', 'step: 200 mm']], /longer than the range/],
    ['an empty list', [['from: 160 mm, to: 24 cm, step: 20 mm', 'values: []']], /the list has 0 items/],
    ['a grid without a step', [[', step: 20 mm', '']], /a full grid needs a step/],
    ['values and a range', [['step: 20 mm', 'values: [1 mm]']], /say the same thing twice/],
    [
      'limits that contradict',
      [['constraints: {}', 'constraints: { largestDiameter: { atLeast: 90 mm, atMost: 80 mm } }']],
      /:5:\d+: constraints\.largestDiameter\.atMost: contradicts atLeast/,
    ],
    [
      'an unknown constraint',
      [['constraints: {}', 'constraints: { largestDiametre: { atMost: 80 mm } }']],
      /did you mean "largestDiameter"/,
    ],
    [
      'an unknown column',
      [['averageTorque: { from: 9000 rpm, to: 11000 rpm }', 'column: { name: torque_mn, speed: 9000 rpm }']],
      /score\.0\.column\.name: a sweep has no column "torque_mn"\n[\s\S]*did you mean "torque_nm"/,
    ],
    ['an unknown term', [['averageTorque', 'averageTorqe']], /did you mean "averageTorque"/],
    [
      'a score beyond the speeds',
      [['to: 11000 rpm', 'to: 12000 rpm']],
      /score\.0: reads 9000 to 12000 rpm, and only 9000 to 11000 rpm are run/,
    ],
    [
      'a screen that the score cannot be read from',
      [['constraints: {}', 'screen: { cell: 15 mm, speeds: [10000 rpm], keep: 25 % }']],
      /screen\.speeds: the score reads 9000 to 11000 rpm/,
    ],
    [
      'a weight of nothing',
      [
        ['}\nconstraints', '}\nconstraints'],
        ['11000 rpm }\n', '11000 rpm }\n    weight: 0\n'],
      ],
      /a weight of zero/,
    ],
    ['an engine in place of a case', [['draft-a.yaml', 'engine.yaml']], /case: names an engine file/],
    [
      'a quantity twice',
      [['constraints:', '  - { path: pipe.sections.baffle.length, values: [1 mm] }\nconstraints:']],
      /varies twice/,
    ],
    [
      'no folder',
      [
        [
          'vary:\n  - { path: pipe.sections.baffle.length, from: 160 mm, to: 24 cm, step: 20 mm }',
          'pipes: nowhere',
        ],
      ],
      /pipes: there is no such folder/,
    ],
    [
      'a difference of temperatures in degC',
      [
        [
          'path: pipe.sections.baffle.length, from: 160 mm, to: 24 cm, step: 20 mm',
          'path: engine.ambient.temperature, add: true, values: [10 degC]',
        ],
      ],
      /written in K/,
    ],
  ])('%s', (_, edits, message) => {
    expect(problems(() => load(study(...edits)))).toMatch(message);
  });

  test('a case that is not there, with who names it', () => {
    expect(() => load(study(['draft-a.yaml', 'draft-z.yaml']))).toThrow(
      /study\.yaml:2:7: case: .*draft-z\.yaml: no such file\n {2}2 \| case: .*\n {4}\| {7}\^+$/,
    );
  });

  test('a folder without pipes', () => {
    const folder = file('pipes-none', '');
    mkdirSync(`${folder}-folder`, { recursive: true });
    const edit = [
      'vary:\n  - { path: pipe.sections.baffle.length, from: 160 mm, to: 24 cm, step: 20 mm }',
      `pipes: ${folder}-folder`,
    ] as const;
    expect(problems(() => load(study(edit)))).toMatch(/holds no pipe file/);
  });
});
