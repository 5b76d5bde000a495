/**
 * Ring: identity. Reconciliations of an engine that is a formula: what was put in is found, what nothing explains is said, and the
 * members depend neither on the order in which they finish nor on a run that was broken off.
 */

import { describe, expect, test } from 'vitest';
import { caseOf } from '../../../src/case/load.ts';
import { refuseUnlike, UnlikeMeasurements } from '../../../src/study/reconcile/agreement.ts';
import { reconcile } from '../../../src/study/reconcile/reconcile.ts';
import { reconcileReport } from '../../../src/study/reconcile/report.ts';
import type { ObservedSpeed } from '../../../src/study/work/observed.ts';
import { benchOf, measuredOf, planOf, SPEEDS, standIn, torqueOf, turnOf } from './stand-in.ts';

const hidden = (() => {
  const { opened } = planOf([measuredOf([])]);
  return caseOf(opened, ['pipe.wall.given.flange=520 degC', 'engine.combustion.completeness=0.85']);
})();
const torques = SPEEDS.map((rpm) => torqueOf(hidden, rpm));
const trace = (offset: number, shift = 0) => {
  const turn = turnOf(hidden);
  return {
    at: 0.1,
    rpm: 10_500,
    pressure: turn.map((_, k) => turn[(k + shift / 2 + 180) % 180]!),
    stepDeg: 2,
    error: 2000,
    offset: offset === 0 ? ({ kind: 'known', value: 0 } as const) : ({ kind: 'free', range: null } as const),
    stand: { file: 'p.csv', line: 2 },
  };
};
const found = (files: Parameters<typeof planOf>[0], count = 64) =>
  reconcile(planOf(files, count), benchOf(standIn().pool));

describe('an engine whose wall is hotter and whose burn is less whole than assumed', async () => {
  const answer = reconcileReport(await found([measuredOf(torques, { traces: [trace(0)] })])).answer;
  const input = (path: string) => answer.inputs.find((one) => one.path === path)!;

  test('is explained, and both are found', () => {
    expect(answer.verdict).toBe('explained');
    expect(answer.fits[0]!.after).toBeLessThan(0.5 * answer.fits[0]!.before);
    const wall = input('pipe.wall.given.flange');
    expect(wall.after.p05!).toBeLessThan(520);
    expect(wall.after.p95!).toBeGreaterThan(520);
    expect(wall.narrowed).toBeLessThan(0.7);
    expect(answer.told.slice(0, 3)).toContain('engine.combustion.completeness');
    expect(input('engine.combustion.completeness').moved).toBeLessThan(-0.1);
  });

  test('leaves what nothing hangs on as it was', () => {
    expect(answer.untold.length).toBeGreaterThan(20);
    const passage = input('engine.passage.wallTemperature');
    expect(Math.abs(passage.moved)).toBeLessThan(0.2);
    expect(passage.narrowed).toBeGreaterThan(0.75);
  });
});

test('a curve 1.4 times as high is said not to be explained, at its speeds, and bends no input to its end', async () => {
  const { answer } = reconcileReport(await found([measuredOf(torques.map((value) => 1.4 * value))]));
  expect(answer.verdict).toBe('not explained');
  expect(answer.fits[0]!.unexplained.length).toBeGreaterThan(SPEEDS.length / 2);
  for (const { path, moved } of answer.inputs) expect(Math.abs(moved), path).toBeLessThan(0.75);
});

test('a factor and an offset that are free are found', async () => {
  // A burn that is less whole looks like a factor, so this engine's is as assumed.
  const hotter = caseOf(planOf([measuredOf([])]).opened, ['pipe.wall.given.flange=520 degC']);
  const shown = SPEEDS.map((rpm) => 0.92 * torqueOf(hotter, rpm));
  const low = measuredOf(shown, { traces: [trace(1, -8)] });
  const free = { ...low, dyno: { ...low.dyno!, factor: { kind: 'free', range: null } as const } };
  const { answer } = reconcileReport(await found([free]));
  const [factor, offset] = answer.inputs.filter(({ loose }) => loose);
  expect(answer.verdict).toBe('explained');
  expect(factor!.after.p05!).toBeLessThan(0.92);
  expect(factor!.after.p95!).toBeGreaterThan(0.92);
  // What the table shows at an angle stands 8 degrees before it: angles are too high by 8.
  expect(offset!.after.p05!).toBeLessThan(-8);
  expect(offset!.after.p95!).toBeGreaterThan(-8);
});

test('members are the same whichever finishes first, and after a run that was broken off', async () => {
  const plan = planOf([measuredOf(torques)], 24);
  const whole = await reconcile(plan, benchOf(standIn('first').pool));
  const other = await reconcile(plan, benchOf(standIn('last').pool));
  expect(other.after.z).toEqual(whole.after.z);
  const done = new Map<string, readonly ObservedSpeed[]>();
  await expect(reconcile(plan, benchOf(standIn('first', 60).pool, done))).rejects.toThrow('broken off');
  expect(done.size).toBeGreaterThan(40);
  const rest = standIn();
  const resumed = await reconcile(plan, benchOf(rest.pool, done));
  expect(resumed.after.z).toEqual(whole.after.z);
  expect(rest.runs()).toBeLessThan(5 * 24 + 1 + SPEEDS.length - 40);
});

describe('files that do not belong together', () => {
  const one = measuredOf(torques, { name: 'one' });
  test('are of different engines, by name or by their curves', () => {
    expect(() =>
      refuseUnlike([
        { ...one, engine: 'Saltmarsh 125' },
        { ...one, engine: 'bench 250' },
      ]),
    ).toThrow(/different engines/);
    const other = measuredOf(
      torques.map((value) => 1.3 * value),
      { name: 'other' },
    );
    expect(() => refuseUnlike([one, other])).toThrow(
      /dyno\.csv:\d: [\d.]+ N m at \d+ rpm, and dyno\.csv:\d has .* two engines/s,
    );
    expect(() => refuseUnlike([one, other])).toThrow(UnlikeMeasurements);
    expect(() => refuseUnlike([one, measuredOf(torques.map((value) => 1.03 * value))])).not.toThrow();
  });

  test('are of different air', () => {
    const air = { pressure: 1e5, temperature: 290, humidity: 0.5 };
    const files = [
      { ...one, ambient: air },
      { ...one, ambient: { ...air, pressure: 9.6e4 } },
    ];
    expect(() => planOf(files)).toThrow(/different air: "one" at 1000 mbar and 17 degC, "one" at 960 mbar/);
  });
});
