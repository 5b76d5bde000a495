/** Ring: identity. What a best draft is cautioned for is what it has less of than its case. */

import { expect, test } from 'vitest';
import { loadCase } from '../../../src/case/load.ts';
import { cautionsOf } from '../../../src/study/work/cautions.ts';

const file = new URL('../../../cases/saltmarsh-125/draft-a.yaml', import.meta.url).pathname;
const base = loadCase(file);

test('a narrower stinger and a leaner mixture are cautioned for, wider and richer ones are not', () => {
  const of = (...set: string[]) => cautionsOf(base, loadCase(file, { set }));
  const narrow = of('pipe.sections.stinger.diameter=20mm', 'pipe.sections.baffle.to=20mm');
  expect(narrow).toHaveLength(1);
  expect(narrow[0]).toContain('20.0 mm');
  const { fuel } = base.engine;
  const leaner = {
    ...base,
    engine: { ...base.engine, fuel: { ...fuel, equivalenceRatio: 0.9 * fuel.equivalenceRatio } },
  };
  expect(cautionsOf(base, leaner).join(' ')).toContain('leaner');
  expect(cautionsOf(leaner, base)).toEqual([]);
  expect(cautionsOf(base, base)).toEqual([]);
});
