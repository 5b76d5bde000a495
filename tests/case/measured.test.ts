/** Ring: identity. Measuring errors behind a quantity, wherever one is read; and the wall given at both its ends. */

import { describe, expect, test } from 'vitest';
import { quantity, share } from '../../src/case/keys/leaves.ts';
import { caseOf, openFile } from '../../src/case/load.ts';
import { parseMeasured, parseMeasuredShare } from '../../src/case/text/measured-text.ts';
import { CASES, edited, problems } from './files.ts';
import { fits } from './json-schema-check.ts';

const demo = `${CASES}saltmarsh-125/draft-a.yaml`;

describe('a quantity with its error', () => {
  test.each([
    ['54 mm ± 0.05 mm', 0.054, 0.05],
    ['54 ± 0.05 mm', 0.054, 0.05],
    ['54 mm +- 0.05 mm', 0.054, 0.05],
    ['54mm+/-0.05mm', 0.054, 0.05],
    ['54 mm ± 1 %', 0.054, 0.54],
    ['54 mm ± 50 um', 0.054, 0.05],
    ['54 mm', 0.054, undefined],
  ])('%s', (text, value, error) => {
    expect(parseMeasured(text, 'length')).toEqual({
      ok: true,
      value,
      unit: 'mm',
      ...(error === undefined ? {} : { error }),
    });
  });

  test('of a temperature is a difference, in the degrees of the value', () => {
    expect(parseMeasured('450 degC ± 20 K', 'temperature')).toMatchObject({ value: 723.15, error: 20 });
    expect(parseMeasured('450 degC ± 20 degC', 'temperature')).toMatchObject({ error: 20 });
    expect(parseMeasured('842 degF ± 10 K', 'temperature')).toMatchObject({ error: 18 });
  });

  test('of a share is one of the value or in points', () => {
    expect(parseMeasuredShare('0.75 ± 0.05')).toMatchObject({ value: 0.75, error: 0.05 });
    expect(parseMeasuredShare('0.8 ± 5 %')).toMatchObject({ value: 0.8, error: 0.04 });
    expect(parseMeasuredShare('75 % ± 5 %')).toMatchObject({ value: 0.75, unit: '%', error: 5 });
  });

  test.each([
    '54 mm ±',
    '54 mm ± 0.05',
    '54 ± 1 %',
    '54 mm ± 0 mm',
    '54 mm ± x mm',
    '± 3 mm',
    '54 mm ± 1 bar',
  ])('%s is refused', (text) => expect(parseMeasured(text, 'length').ok).toBe(false));

  test('stands in files and behind --set, and is kept beside the value', () => {
    const file = edited({ engine: [['bore: 54 mm', 'bore: 54 mm ± 0.05 mm']] });
    const subject = caseOf(openFile(file), ['engine.rod=115 ± 0.2 mm', 'engine.bore += 1 mm']);
    const measured = subject.inputs.flatMap((one) =>
      one.measured === undefined ? [] : [[one.path, one.measured]],
    );
    expect(measured).toEqual([
      ['engine.bore', { number: 55, error: 0.05, unit: 'mm' }],
      ['engine.rod', { number: 115, error: 0.2, unit: 'mm' }],
    ]);
    expect(subject.engine.bore).toBeCloseTo(0.055, 12);
    const wrong = edited({ engine: [['bore: 54 mm', 'bore: 54 mm ± 0.05']] });
    expect(problems(() => caseOf(openFile(wrong), []))).toContain('engine.yaml:4:7: engine.bore');
  });

  test('is taken by the JSON Schemas, and what is refused is not', () => {
    const length = quantity('length').jsonSchema();
    for (const text of ['54 mm', '54 mm ± 0.05 mm', '54 ± 0.05 mm', '54 mm +- 1 %', '54 mm+/-0.05 mm'])
      expect(fits(text, length), text).toBe(true);
    for (const text of ['54 ± 0.05', '54 mm ±', '54 mm ± 0.05', '54'])
      expect(fits(text, length), text).toBe(false);
    expect(fits('0.75 ± 0.05', share().jsonSchema())).toBe(true);
    expect(fits('0.75 ±', share().jsonSchema())).toBe(false);
  });
});

describe('the wall at both ends', () => {
  test('is set at one of them, the other staying as it was assumed', () => {
    const plain = caseOf(openFile(demo), []).pipe;
    const { wall } = caseOf(openFile(demo), ['pipe.wall.given.flange=500 degC']).pipe;
    const length = plain.sections.reduce((sum, one) => sum + one.length, 0);
    expect(wall).toEqual({
      by: 'given',
      at: [
        { position: 0, temperature: 773.15 },
        { position: expect.closeTo(length, 12), temperature: 473.15 },
      ],
    });
    expect(plain.wall).toEqual(
      caseOf(openFile(demo), ['pipe.wall.given={ flange: 450 degC, end: 200 degC }']).pipe.wall,
    );
  });
});
