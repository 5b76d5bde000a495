/** Ring: identity. Constraints on pipes whose lengths, angles and sheet are known from their drawing. */

import { describe, expect, test } from 'vitest';
import { loadCase } from '../../../src/case/load.ts';
import { limitsOf } from '../../../src/case/study/flag-limits.ts';
import { constraintList, missText, sheetArea } from '../../../src/study/work/constraints.ts';

const base = loadCase(new URL('../../../cases/saltmarsh-125/draft-a.yaml', import.meta.url).pathname);
const passage = base.engine.passage.length;

/** A tube, a cone of 45 degrees a side, a tube, its mirror, a tube: 40 to 100 to 40 mm. */
const part = (
  role: 'header' | 'diffuser' | 'belly' | 'baffle' | 'stinger',
  mm: number,
  left: number,
  right: number,
) => ({
  name: role,
  role,
  length: mm / 1000,
  diameter: [left / 1000, right / 1000] as const,
  step: false,
});
const draft = {
  engine: base.engine,
  pipe: {
    ...base.pipe,
    sections: [
      part('header', 200, 40, 40),
      part('diffuser', 30, 40, 100),
      part('belly', 100, 100, 100),
      part('baffle', 30, 100, 40),
      part('stinger', 100, 40, 40),
    ],
  },
};
const check = (...texts: string[]) => missText(constraintList(limitsOf(texts), base), draft);
const mm = (value: number): string => `${value} mm`;

describe('a constraint', () => {
  test.each([
    ['lengthToBaffleEnd.atMost', mm(Math.round(1000 * passage) + 360), mm(Math.round(1000 * passage) + 359)],
    ['lengthToBaffleEnd.atLeast', mm(Math.round(1000 * passage) + 360), mm(Math.round(1000 * passage) + 361)],
    ['largestDiameter.atMost', '100 mm', '99.9 mm'],
    ['diffuserAngle.atMost', '90 deg', '89.9 deg'],
    ['baffleAngle.atLeast', '90 deg', '90.1 deg'],
  ])('%s is met at %s and missed at %s', (key, met, missed) => {
    expect(check(`${key}=${met}`)).toBe('');
    expect(check(`${key}=${missed}`)).toMatch(/allowed at/);
  });

  test('says what was found', () => {
    expect(check('largestDiameter.atMost=9 cm')).toBe('largest diameter 100 mm, allowed at most 90 mm');
  });

  test('of the sheet takes the surfaces of tubes and cones', () => {
    // pi d L of the tubes; of each cone pi (d1 + d2)/2 times its slant, 30 mm times root two.
    const tubes = Math.PI * (0.04 * 0.2 + 0.1 * 0.1 + 0.04 * 0.1);
    const cones = 2 * Math.PI * 0.07 * 0.03 * Math.SQRT2;
    expect(sheetArea(draft)).toBeCloseTo(tubes + cones, 12);
    const other = constraintList(limitsOf(['sheet.sameWithin=1 %']), draft);
    expect(other[0]?.miss(draft)).toBeLessThan(0);
    const longer = {
      ...draft,
      pipe: { ...draft.pipe, sections: [...draft.pipe.sections, part('stinger', 50, 40, 40)] },
    };
    expect(missText(other, longer)).toMatch(/^same sheet \d+ cm2, allowed \d+ cm2 within 1 %$/);
  });

  test('keeps the passage', () => {
    const fixed = constraintList(limitsOf(['passage=fixed']), base);
    expect(missText(fixed, draft)).toBe('');
    const engine = { ...base.engine, passage: { ...base.engine.passage, length: passage + 1e-3 } };
    expect(missText(fixed, { ...draft, engine })).toBe('passage changed, allowed as the case has it');
  });

  test('of the command line is refused like one of a file', () => {
    expect(() => limitsOf(['largestDiametre.atMost=90 mm'])).toThrow(
      /--limit:1:1: unknown key "largestDiametre"[\s\S]*did you mean "largestDiameter"/,
    );
    expect(() => limitsOf(['largestDiameter.atMost=90 bar'])).toThrow(/is a pressure/);
    expect(() => limitsOf(['sheet.atLeast=0.2 m2', 'sheet.atMost=0.1 m2'])).toThrow(/contradicts atLeast/);
  });
});
