/** Ring: exact solution. Paths of waves through fields whose characteristics are known. Derived here. */

import { expect, test } from 'vitest';
import { type SpeedFields, tracePath } from '../../src/findings/trace-path.ts';

const RPM = 10_000;
const CELLS = 200;
const LENGTH = 1;

function fields(forward: (x: number, deg: number) => number, backward: (x: number, deg: number) => number) {
  const positions = Float64Array.from({ length: CELLS }, (_, i) => ((i + 0.5) * LENGTH) / CELLS);
  const filled = (of: (x: number, deg: number) => number): Float64Array =>
    Float64Array.from({ length: 361 * CELLS }, (_, k) =>
      of(positions[k % CELLS] as number, Math.floor(k / CELLS)),
    );
  const made: SpeedFields = {
    positions,
    stepDeg: 1,
    rows: 361,
    velocity: filled((x, deg) => 0.5 * (forward(x, deg) + backward(x, deg))),
    sound: filled((x, deg) => 0.5 * (forward(x, deg) - backward(x, deg))),
  };
  return made;
}

test('in a steady uniform stream, out at u + a and back at a - u', () => {
  const path = tracePath(
    fields(
      () => 650,
      () => -550,
    ),
    10,
    0.8,
    RPM,
  );
  const back = 6 * RPM * (0.8 / 650 + 0.8 / 550);
  expect(path?.out.deg.at(-1)).toBeCloseTo(10 + (6 * RPM * 0.8) / 650, 6);
  expect(path?.back.deg.at(-1)).toBeCloseTo(10 + back, 6);
  expect(path?.back.positions.at(-1)).toBe(0);
});

test('through gas that cools along the pipe, by the logarithm', () => {
  // dx/dt = c + k x takes ln((c + k L)/c)/k.
  const [c, k, L] = [700, -250, 0.9];
  const path = tracePath(
    fields(
      (x) => c + k * x,
      (x) => -(c + k * x),
    ),
    0,
    L,
    RPM,
  );
  const way = (6 * RPM * Math.log((c + k * L) / c)) / k;
  expect(path?.out.deg.at(-1)).toBeCloseTo(way, 2);
  expect(path?.back.deg.at(-1)).toBeCloseTo(2 * way, 2);
});

test('over the end of the turn, by the fields of its beginning', () => {
  // Faster by half in the first half of the turn.
  const speed = (_: number, deg: number): number => (deg < 180 ? 900 : 600);
  const path = tracePath(
    fields(speed, (x, deg) => -speed(x, deg)),
    330,
    0.5,
    RPM,
  );
  // 30 degrees at 600 m/s make 0.3 m, the rest goes at 900.
  const out = 360 + (6 * RPM * 0.2) / 900;
  expect(Math.abs((path?.out.deg.at(-1) ?? 0) - out)).toBeLessThan(0.3);
});

test('never, where the stream carries it away', () => {
  expect(
    tracePath(
      fields(
        () => 900,
        () => 100,
      ),
      0,
      0.5,
      RPM,
    ),
  ).toBeNull();
});
