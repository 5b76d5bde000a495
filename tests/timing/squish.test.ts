/** Squish velocity. Ring: exact solution, against finite differences of the exact volumes; and what a case makes of a head. */

import { describe, expect, test } from 'vitest';
import { loadCase } from '../../src/case/load.ts';
import { pistonTravel } from '../../src/timing/crank.ts';
import { checkReport } from '../../src/timing/rules/report.ts';
import { squishOf, squishVelocityAt } from '../../src/timing/squish.ts';
import { volumesOf } from '../../src/timing/volume.ts';
import { CASES, edited, problems } from '../case/files.ts';
import { engine } from './saltmarsh.ts';

const RPM = 11_000;
const volumes = volumesOf(engine);
const head = { squishClearance: 0.9e-3, squishArea: 0.5 * volumes.pistonArea, volume: null };

test('is the rate at which the bowl gains of the charge, over the area of the gap', () => {
  const bowl = Math.sqrt((4 * 0.5 * volumes.pistonArea) / Math.PI);
  const shareOfBowl = (deg: number): number => {
    const s = pistonTravel(volumes.crank, deg);
    const whole = volumes.clearance + volumes.pistonArea * s;
    return 1 - (head.squishArea * (head.squishClearance + s)) / whole;
  };
  for (const deg of [310, 335, 350, 356, 365]) {
    const h = 1e-3;
    const perSecond = ((shareOfBowl(deg + h) - shareOfBowl(deg - h)) / (2 * h)) * 6 * RPM;
    const s = pistonTravel(volumes.crank, deg);
    const gap = Math.PI * bowl * (head.squishClearance + s);
    const expected = (perSecond * (volumes.clearance + volumes.pistonArea * s)) / gap;
    expect(squishVelocityAt(head, volumes, RPM, deg) / expected).toBeCloseTo(1, 6);
  }
});

test('is largest some ten degrees before top dead centre, grows with speed, and is none at it', () => {
  const { velocity, deg } = squishOf(head, volumes, RPM);
  expect(deg).toBeGreaterThan(345);
  expect(deg).toBeLessThan(355);
  expect(squishOf(head, volumes, 2 * RPM).velocity).toBeCloseTo(2 * velocity, 9);
  expect(squishVelocityAt(head, volumes, RPM, 360)).toBeCloseTo(0, 9);
  expect(squishOf({ ...head, squishClearance: 0.7e-3 }, volumes, RPM).velocity).toBeGreaterThan(velocity);
});

describe('a case', () => {
  const demo = `${CASES}saltmarsh-125/draft-a.yaml`;
  const withHead = (keys: string, ...set: string[]) =>
    loadCase(demo, { set: [`engine.head={ ${keys} }`, ...set] });
  const rule = (keys: string) => checkReport(withHead(keys)).rules.find(({ id }) => id === 'squish-velocity');

  test('with a head is told its squish velocity, one without is not', () => {
    const found = rule('squishClearance: 0.8 mm, squishWidth: 8 mm');
    expect(found?.usual).toEqual([15, 30]);
    expect(found?.found).toBeGreaterThan(10);
    expect(found?.found).toBeLessThan(60);
    expect(checkReport(loadCase(demo)).rules.some(({ id }) => id === 'squish-velocity')).toBe(false);
  });

  test('width and area of the same band give the same; a lifted barrel opens the gap', () => {
    const area = Math.PI * (27 ** 2 - 19 ** 2);
    expect(rule(`squishClearance: 0.8 mm, squishArea: ${area} mm2`)?.found).toBeCloseTo(
      rule('squishClearance: 0.8 mm, squishWidth: 8 mm')?.found as number,
      6,
    );
    const lifted = withHead('squishClearance: 0.8 mm, squishWidth: 8 mm', 'engine.barrelLift=0.3 mm');
    expect(lifted.engine.head?.squishClearance).toBeCloseTo(1.1e-3, 9);
  });

  test.each([
    ['squishClearance: 0.8 mm', 'needs one of squishArea, squishWidth'],
    ['squishClearance: 0.8 mm, squishWidth: 27 mm', 'leaves no bowl'],
    ['squishClearance: 9 mm, squishWidth: 8 mm', 'nothing is left for a bowl'],
  ])('{ %s } is refused: %s', (keys, why) => {
    const text = `head: { ${keys} }\nintake:`;
    expect(problems(() => loadCase(edited({ engine: [['intake:', text]] })))).toContain(why);
  });
});
