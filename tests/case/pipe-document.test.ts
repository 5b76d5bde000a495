/** Ring: identity. A pipe written to a file reads back the same. */

import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { loadPipe, readKind } from '../../src/case/load.ts';
import { pipeDocument } from '../../src/case/pipe/pipe-document.ts';
import type { Pipe } from '../../src/model/pipe.ts';
import { CASES, DRAFTS, file } from './files.ts';

const pipes = readdirSync(CASES, { recursive: true, encoding: 'utf8' }).filter(
  (name) => name.endsWith('.yaml') && readKind(join(CASES, name)) === 'pipe',
);

const roundTrip = (pipe: Pipe): Pipe => loadPipe(file('pipe.yaml', pipeDocument(pipe)));

test.each(pipes)('%s', (name) => {
  const pipe = loadPipe(join(CASES, name));
  expect(roundTrip(pipe)).toEqual(pipe);
});

test('with a step, a silencer, a heat balance, odd lengths and an odd name', () => {
  const pipe: Pipe = {
    name: '<b>: "x" # {y}\\ & Söhne',
    sections: [
      { name: 'flange', role: 'header', length: 0.0123, diameter: [0.038, 0.038], step: true },
      { name: 'true', role: 'header', length: 0.28, diameter: [0.04, 0.041], step: true },
      { name: '1', role: 'baffle', length: 1 / 3, diameter: [0.041, 0.0225], step: false },
      { name: 'stinger', role: 'stinger', length: 0.2, diameter: [0.0225, 0.0225], step: false },
    ],
    bends: [
      { at: 0.02, angleDeg: 37.5, radius: 0.08, planeDeg: -15, segments: 3 },
      { at: 0.12, angleDeg: 20, radius: 0.2, planeDeg: 0, segments: null },
    ],
    sheet: 0.0008,
    silencer: { volume: 9e-4, outletDiameter: 0.024, discharge: 0.82 },
    wall: { by: 'balance', emissivity: 0.85, outsideCoefficient: 55 },
    roughness: 3e-5,
    coneLoss: 0.7,
    bendLoss: 1.2,
    endCorrection: 0,
  };
  const back = roundTrip(pipe);
  expect(back.sections[2]!.length).toBeCloseTo(1 / 3, 12);
  expect({ ...back, sections: back.sections.with(2, { ...back.sections[2]!, length: 1 / 3 }) }).toEqual(pipe);
});

test('reads like a drawing, whole millimetres where whole', () => {
  const text = pipeDocument(
    loadPipe(join(DRAFTS, 'saltmarsh-125/pipe-a.yaml')),
    'Written by a test.\nSecond line.',
  );
  expect(text.split('\n').slice(0, 9)).toEqual([
    '# Written by a test.',
    '# Second line.',
    '',
    'kind: pipe',
    'name: A, broad',
    'sections:',
    '  - { name: header, role: header, length: 280 mm, diameter: [ 38 mm, 41 mm ] }',
    '  - { name: diffuser 1, role: diffuser, length: 200 mm, to: 66 mm }',
    '  - { name: diffuser 2, role: diffuser, length: 130 mm, to: 102 mm }',
  ]);
});
