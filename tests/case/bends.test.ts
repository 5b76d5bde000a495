/** Ring: identity. Bends and outside circumferences of a pipe file, and what is refused of them. */

import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { describeInputs, loadCase, loadPipe } from '../../src/case/load.ts';
import { CaseProblems } from '../../src/case/text/problem.ts';
import { file } from './files.ts';

const sections = `sections:
  - { name: header, length: 200 mm, diameter: [36 mm, 40 mm] }
  - { name: diffuser, length: 200 mm, to: 90 mm }
  - { name: baffle, length: 200 mm, to: 24 mm }
`;

const pipe = (more: string, from = sections) => loadPipe(file('pipe.yaml', `kind: pipe\n${from}${more}`));

function refused(more: string, from = sections): string {
  try {
    pipe(more, from);
  } catch (error) {
    expect(error).toBeInstanceOf(CaseProblems);
    return (error as CaseProblems).message;
  }
  return '';
}

test('bends are read in the order of the flow; segments left out is smooth', () => {
  const { bends } = pipe(`bends:
  - { at: 20 mm, angle: 60 deg, radius: 75 mm, plane: 0 deg, segments: 4 }
  - { at: 120 mm, angle: 0.5 rad, radius: 100 mm, plane: -90 deg }
`);
  expect(bends).toEqual([
    { at: 0.02, angleDeg: 60, radius: 0.075, planeDeg: 0, segments: 4 },
    { at: 0.12, angleDeg: expect.closeTo(90 / Math.PI, 12), radius: 0.1, planeDeg: -90, segments: null },
  ]);
  expect(pipe('').bends).toEqual([]);
});

test.each([
  [
    'overlapping',
    'bends: [{ at: 0 mm, angle: 90 deg, radius: 75 mm, plane: 0 deg }, { at: 117 mm, angle: 9 deg, radius: 75 mm, plane: 0 deg }]',
    'bends.1.at: begins before the bend ahead of it ends, at 117.81 mm',
  ],
  [
    'beyond the end',
    'bends: [{ at: 500 mm, angle: 90 deg, radius: 100 mm, plane: 0 deg }]',
    'beyond the end of the pipe at 600 mm',
  ],
  [
    'tighter than the diameter',
    'bends: [{ at: 380 mm, angle: 45 deg, radius: 44 mm, plane: 0 deg }]',
    'bends.0.radius: is too tight: the pipe is 90 mm wide there',
  ],
  ['no angle', 'bends: [{ at: 0 mm, angle: 0 deg, radius: 75 mm, plane: 0 deg }]', 'bends.0.angle'],
  ['no plane', 'bends: [{ at: 0 mm, angle: 9 deg, radius: 75 mm }]', 'bends.0.plane: is missing'],
])('bends %s are refused with their place', (_, text, message) => {
  expect(refused(`${text}\n`)).toContain(message);
});

test('circumferences are outside the sheet, square to the axis', () => {
  // Header 40 mm inside of 1 mm sheet, parallel: 42 pi round. The cone widens by 50 mm over 60 mm of length, so its sheet
  // lies 1 mm / cos(22.62 deg) = 13/12 mm outwards (5-12-13 triangle): 40 + 13/6 and 90 + 13/6 mm.
  const [c1, c2, c3] = [42, 40 + 13 / 6, 90 + 13 / 6].map((d) => (d * Math.PI).toFixed(9));
  const read = pipe(
    'sheet: 1 mm\n',
    `sections:
  - { name: header, length: 100 mm, circumference: ${c1} mm }
  - { name: diffuser, length: 60 mm, circumference: [${c2} mm, ${c3} mm] }
  - { name: baffle, length: 200 mm, to: 24 mm }
`,
  );
  expect(read.sheet).toBe(0.001);
  const inside = read.sections.map(({ diameter }) => diameter.map((d) => 1000 * d));
  [
    [40, 40],
    [40, 90],
    [90, 24],
  ].forEach((pair, i) => {
    pair.forEach((d, j) => {
      expect(inside[i]?.[j]).toBeCloseTo(d, 8);
    });
  });
});

test('a circumference without the sheet, or one beside a diameter, is refused', () => {
  const measured = (more: string) =>
    `sections:\n  - { name: baffle, length: 100 mm, circumference: [200 mm, 100 mm]${more} }\n`;
  expect(refused('', measured(''))).toContain('needs the thickness of the sheet');
  expect(refused('sheet: 1 mm\n', measured(', diameter: 30 mm'))).toContain('say the same thing twice');
  expect(
    refused('sheet: 6 mm\n', 'sections:\n  - { name: baffle, length: 9 cm, circumference: [2 m, 3 cm] }\n'),
  ).toContain('leaves no pipe inside');
});

test('what bends cost is assumed where there are any; without them the pipe is said to be straight', () => {
  const engine = fileURLToPath(new URL('../../cases/saltmarsh-125/engine.yaml', import.meta.url));
  const assumed = (bends: string) =>
    describeInputs(
      loadCase(
        file(
          'case.yaml',
          `kind: case\nengine: ${engine}\npipe:\n${`${sections}${bends}`.replace(/^(?=.)/gm, '  ')}run: { speeds: [9000 rpm] }\n`,
        ),
      ),
    ).filter(({ path }) => path === 'pipe.bends' || path === 'pipe.bendLoss');
  expect(assumed('')).toMatchObject([{ path: 'pipe.bends', value: 'none', sort: 'absence' }]);
  expect(assumed('bends: [{ at: 20 mm, angle: 60 deg, radius: 75 mm, plane: 0 deg }]\n')).toMatchObject([
    { path: 'pipe.bendLoss', value: '1', sort: 'quantity', reason: expect.stringContaining('0.5 to 2') },
  ]);
});
