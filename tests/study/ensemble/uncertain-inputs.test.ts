/** What of a case is not known exactly, and within which limits. Ring: identity. */

import { describe, expect, test } from 'vitest';
import { caseOf, openFile } from '../../../src/case/load.ts';
import { drawMembers, overridesOf } from '../../../src/study/ensemble/members.ts';
import { scoreOfValue, shareBelow, valueAtShare, valueOfScore } from '../../../src/study/ensemble/spread.ts';
import {
  type UncertainInput,
  uncertainInputs,
  unusedErrors,
} from '../../../src/study/ensemble/uncertain-inputs.ts';
import { CASES } from '../../case/files.ts';

const names = ['saltmarsh-125/draft-a.yaml', 'bench-50/case.yaml', 'bench-250/case.yaml'];
const demo = openFile(`${CASES}${names[0]}`);
const of = (inputs: readonly UncertainInput[], path: string) => inputs.find((one) => one.path === path);

describe('inputs', () => {
  test.each(names)('%s: every assumed quantity is one, the wall at both ends, and nothing else', (name) => {
    const opened = openFile(`${CASES}${name}`);
    const assumed = caseOf(opened, []).assumed.filter(({ sort }) => sort === 'quantity');
    const expected = assumed.flatMap(({ path }) =>
      path === 'pipe.wall' ? ['pipe.wall.given.flange', 'pipe.wall.given.end'] : [path],
    );
    const inputs = uncertainInputs(opened, []);
    expect(inputs.map(({ path }) => path).sort()).toEqual([...expected].sort());
    for (const { reason, spread, central } of inputs) {
      expect(reason).not.toBe('');
      // The case's own value is inside its range.
      const share = shareBelow(spread, central);
      expect(share).toBeGreaterThanOrEqual(0);
      expect(share).toBeLessThanOrEqual(1);
    }
  });

  test('what is stated is known, unless an error stands behind it: two standard deviations', () => {
    const inputs = uncertainInputs(demo, [
      'engine.ambient.temperature=20 degC',
      'engine.bore=54 mm ± 0.1 mm',
    ]);
    expect(of(inputs, 'engine.ambient.temperature')).toBeUndefined();
    expect(of(inputs, 'engine.bore')).toMatchObject({
      central: 54,
      unit: 'mm',
      why: 'measured',
      spread: { shape: 'normal', mean: 54, sd: 0.05 },
    });
  });

  test('a wall that is given is no better known than one that is assumed; one that is balanced has its balance', () => {
    const given = uncertainInputs(demo, [
      'pipe.wall.given=[{ at: 0 mm, temperature: 400 degC }, { at: 500 mm, temperature: 300 degC }]',
    ]);
    const walls = given.filter(({ path }) => path.startsWith('pipe.wall'));
    expect(walls.map(({ path, central, why }) => [path, central, why])).toEqual([
      ['pipe.wall.given.0.temperature', 400, 'stated'],
      ['pipe.wall.given.1.temperature', 300, 'stated'],
    ]);
    const one = uncertainInputs(demo, ['pipe.wall.given=400 degC ± 30 K']);
    expect(of(one, 'pipe.wall.given')).toMatchObject({ central: 400, why: 'measured', spread: { sd: 15 } });
    const balanced = uncertainInputs(demo, ['pipe.wall=balance']).map(({ path }) => path);
    expect(balanced).toContain('pipe.wall.balance.emissivity');
    expect(balanced).toContain('pipe.wall.balance.outsideCoefficient');
    expect(balanced.some((path) => path.startsWith('pipe.wall.given'))).toBe(false);
  });

  test('of areas of which two make the third, two are inputs, and members of them can be', () => {
    const set = ['engine.transfers.passage={ length: 85 mm, as: duct }'];
    const inputs = uncertainInputs(demo, set);
    const areas = inputs.filter(({ path }) => /^engine\.transfers\.passage\.\w*area$/i.test(path));
    expect(areas).toHaveLength(2);
    const members = drawMembers(inputs, 16);
    for (let k = 0; k < 16; k += 1) caseOf(demo, [...set, ...overridesOf(members, k)]);
  });

  test('how it is computed is no input, nor what is bound to others; their errors are told', () => {
    const set = [
      'run.cell=10 mm ± 1 mm',
      'pipe.sections.diffuser 1.diameter=[40 mm ± 0.2 mm, 62 mm]',
      'engine.rod=115 ± 1 mm',
    ];
    const inputs = uncertainInputs(demo, set);
    expect(unusedErrors(demo, set, inputs)).toEqual(['pipe.sections.diffuser 1.diameter.0', 'run.cell']);
    expect(of(inputs, 'engine.rod')?.shares).toEqual([0, 1]);
  });
});

describe('limits', () => {
  test('a range that leads out of what is allowed is cut, and no member is refused', () => {
    const set = ['engine.exhaust.discharge.outFull=0.97 ± 0.1'];
    const input = of(uncertainInputs(demo, set), 'engine.exhaust.discharge.outFull')!;
    expect(input.shares[0]).toBe(0);
    expect(input.shares[1]).toBeLessThan(1);
    expect(valueOfScore(input, 6)).toBeLessThanOrEqual(1);
    expect(valueOfScore(input, 6)).toBeGreaterThan(0.999);
    const members = drawMembers(uncertainInputs(demo, set), 64);
    for (let k = 0; k < 64; k += 1) caseOf(demo, [...set, ...overridesOf(members, k)]);
  });
});

describe('a spread', () => {
  test.each([
    { shape: 'normal', mean: 3, sd: 2 },
    { shape: 'uniform', from: -17, to: -11 },
    { shape: 'log-uniform', from: 0.5, to: 3 },
  ] as const)('$shape: shares and scores lead there and back', (spread) => {
    for (const share of [0.01, 0.3, 0.5, 0.97])
      expect(shareBelow(spread, valueAtShare(spread, share))).toBeCloseTo(share, 9);
    const cut = { spread, shares: [0.1, 0.8] as const };
    expect(valueOfScore(cut, 0)).toBeCloseTo(valueAtShare(spread, 0.45), 9);
    expect(scoreOfValue(cut, valueOfScore(cut, 1.3))).toBeCloseTo(1.3, 6);
    expect(Number.isFinite(scoreOfValue(cut, valueAtShare(spread, 0.9)))).toBe(true);
  });

  test('the middle of a log-uniform is the geometric mean', () => {
    expect(valueAtShare({ shape: 'log-uniform', from: 0.5, to: 2 }, 0.5)).toBeCloseTo(1, 12);
  });
});
