/** An exhaust roof that moves over speed. Ring: identity, with the same roof given for one speed; and which way it goes. */

import { describe, expect, test } from 'vitest';
import { engineEvents } from '../../src/timing/events.ts';
import { engineAt, raiseAt } from '../../src/timing/roof-over-speed.ts';
import { compressionRatios } from '../../src/timing/volume.ts';
import { problems } from '../case/files.ts';
import { draft, rowAt } from './demo.ts';

const curve = (low: string, high: string): string[] =>
  [0, 1].map(
    (k) =>
      `engine.exhaust.windows.${k}.raise=[{ speed: 8000 rpm, raise: ${low} }, { speed: 10000 rpm, raise: ${high} }]`,
  );
/** The passage is cast, whatever the roof does. */
const common = ['run.cell=20 mm', 'engine.passage.entryArea=1190 mm2'];
const moving = draft('a', [...common, ...curve('-2 mm', '0 mm')]);

test('is straight between its points and held beyond them', () => {
  const points = moving.engine.exhaust.windows[0]!.raisedAt!;
  expect([6000, 8000, 8500, 10_000, 12_000].map((rpm) => 1e3 * raiseAt(points, rpm))).toEqual(
    [-2, -2, -1.5, 0, 0].map((mm) => expect.closeTo(mm, 9)),
  );
});

test('opens earlier the higher it stands, over the same floor and under the same head', () => {
  const [low, high] = [8000, 10_000].map((rpm) => engineAt(moving.engine, rpm));
  expect(engineEvents(low!).exhaust.durationDeg).toBeLessThan(engineEvents(high!).exhaust.durationDeg - 5);
  expect(compressionRatios(low!).full).toBeCloseTo(compressionRatios(high!).full, 9);
  expect(compressionRatios(low!).trapped).toBeGreaterThan(compressionRatios(high!).trapped);
  const side = [low!, high!].map(({ exhaust }) => exhaust.windows[1]!);
  expect(side[0]!.height).toBeCloseTo(side[1]!.height! - 2e-3, 12);
});

describe('the demo', () => {
  test('runs as with that roof alone, and its row tells the port as it stands there', () => {
    const full = compressionRatios(draft('a').engine).full;
    const fixed = draft('a', [
      ...common,
      'engine.exhaust.windows.0.raise=-2 mm',
      'engine.exhaust.windows.1.raise=-2 mm',
      `engine.compression={ full: ${full} }`,
    ]);
    const [one, other] = [rowAt(moving, 8000), rowAt(fixed, 8000)];
    expect(one.exhaust_opens_deg).toBeCloseTo(other.exhaust_opens_deg, 9);
    expect(one.torque_nm / other.torque_nm).toBeCloseTo(1, 6);
    const [still, stated] = [rowAt(moving, 10_500), rowAt(draft('a', common), 10_500)];
    expect(still.torque_nm / stated.torque_nm).toBeCloseTo(1, 6);
  });

  test('gains torque below its band from a lower roof (common practice, no source)', () => {
    const stated = draft('a', common);
    expect(rowAt(moving, 8000).torque_nm).toBeGreaterThan(rowAt(stated, 8000).torque_nm);
  });
});

test.each([
  ['-25 mm', 'at 8000 rpm'],
  ['30 mm', 'at 8000 rpm the roof would stand above the crown'],
])('a roof that cannot go there is refused: %s', (low, why) => {
  expect(problems(() => draft('a', curve(low, '0 mm')))).toContain(why);
});

test('a transfer roof does not move', () => {
  const set = ['engine.transfers.windows.boost.raise=[{ speed: 8000 rpm, raise: 1 mm }]'];
  expect(problems(() => draft('a', set))).toContain('only exhaust roofs move');
});
