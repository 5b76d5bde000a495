/** The passages of the transfers as a case states them. Ring: identity. */

import { expect, test } from 'vitest';
import { loadCase } from '../../src/case/load.ts';
import { passagesVolume } from '../../src/pipe/transfer-passages.ts';

const demo = new URL('../../cases/saltmarsh-125/draft-a.yaml', import.meta.url).pathname;
const passage = 'engine.transfers.passage';
const with_ = (...set: string[]) => loadCase(demo, { set: set.map((one) => `${passage}.${one}`) });
const assumedOf = (...set: string[]): readonly string[] =>
  with_(...set)
    .assumed.map(({ path }) => path)
    .filter((path) => path.startsWith(passage));

test('are lumped unless asked for as ducts, and then nothing more is assumed', () => {
  expect(with_().engine.transfers.passage).toMatchObject({ as: 'lumped', area: 1300e-6, inertia: true });
  expect(assumedOf()).toEqual([`${passage}.as`]);
});

test('of the areas at both ends and the mean, two say all: a round taper moves as one of sqrt(A1 A2)', () => {
  const { area, entryArea, exitArea } = with_('as=duct').engine.transfers.passage;
  expect(Math.sqrt(entryArea * exitArea)).toBeCloseTo(area, 12);
  expect(assumedOf('as=duct')).toEqual([`${passage}.exitArea`, `${passage}.entryArea`]);
  const one = with_('as=duct', 'entryArea=1690 mm2').engine.transfers.passage;
  expect(one.exitArea).toBeCloseTo(1000e-6, 12);
  expect(assumedOf('as=duct', 'entryArea=1690 mm2')).toEqual([`${passage}.exitArea`]);
});

test('all three areas, and passages that leave no crankcase, are refused', () => {
  expect(() => with_('entryArea=1500 mm2', 'exitArea=1100 mm2')).toThrow(/leave one of the three out/);
  expect(() => with_('as=duct', 'length=300 mm')).toThrow(/leave too little of a crankcase of 416.1 cc/);
  expect(() => with_('length=300 mm')).not.toThrow();
  expect(() => with_('as=pipe')).toThrow(/one of lumped, duct/);
});

test('hold the volume of a cone', () => {
  expect(
    passagesVolume({ length: 0.3, area: 0, entryArea: 4e-4, exitArea: 1e-4, as: 'duct', inertia: false }),
  ).toBeCloseTo(0.1 * 7e-4, 15);
});
