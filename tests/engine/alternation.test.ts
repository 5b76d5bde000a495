/**
 * Ring: identity. How a series of cycles is judged: what repeats, what varies about a mean that can be known, what swings slowly,
 * creeps, jumps or wanders. Series made up, random numbers of a fixed seed.
 */

import { describe, expect, test } from 'vitest';
import { errorOfMean } from '../../src/engine/read/mean-error.ts';
import { statesOf } from '../../src/engine/read/settling-note.ts';
import { type CycleSummary, driftOf, meanOf } from '../../src/engine/read/window.ts';
import { alternationOf } from '../../src/engine/run/alternation.ts';
import { remainderOf } from '../../src/engine/run/creep.ts';
import { steadyWindow } from '../../src/engine/run/steady-mean.ts';
import { randomSource } from '../../src/study/search/random.ts';

/** Cycles of given torques; all else follows them. */
const cyclesOf = (torque: readonly number[]): CycleSummary[] =>
  torque.map(
    (value) =>
      ({
        book: { trapped: 1e-4 * value, drift: 0, released: 10 * value },
        reading: { output: { torque: value }, plugBack: { centroidDeg: 90 + value / 2 } },
        pipeTemperature: 700 + value,
        wallMiss: 0,
      }) as unknown as CycleSummary,
  );
const series = (count: number, value: (k: number) => number): number[] =>
  Array.from({ length: count }, (_, k) => value(k));
/** Noise of mean 0 and standard deviation 1, nearly normal. */
function noise(seed: number): () => number {
  const source = randomSource(seed, 1);
  return () => series(12, () => source.uniform()).reduce((sum, one) => sum + one - 0.5, 0);
}

describe('alternation', () => {
  test.each([2, 3, 4, 5, 7, 8])('of %i cycles is found, and its window is whole periods', (period) => {
    const states = series(period, (k) => 20 + 5 * Math.sin(1 + 2.3 * k * k));
    const found = alternationOf(cyclesOf(series(30, (k) => states[k % period]!)));
    expect(found?.period).toBe(period);
    expect(found!.window.length % (2 * period)).toBe(0);
    const mean = meanOf(found!.window.map(({ reading }) => reading.output.torque));
    expect(mean).toBeCloseTo(meanOf(states), 12);
  });

  test('is not seen in a slow swing, at whatever point of it, nor in a creep', () => {
    for (let phase = 0; phase < 18; phase++) {
      const swing = series(24, (k) => 20 + Math.sin((2 * Math.PI * (k + phase)) / 18));
      expect(alternationOf(cyclesOf(swing)), `${phase}`).toBeNull();
    }
    expect(alternationOf(cyclesOf(series(24, (k) => 20 + 0.03 * k)))).toBeNull();
    // Two states in turn, and a creep of a tenth of a per cent a cycle on top.
    expect(alternationOf(cyclesOf(series(24, (k) => 20 + 3 * (k % 2) + 0.02 * k)))).toBeNull();
  });

  test('gains nothing over its turns, though the shares of its cycles have a mean', () => {
    const cycles = cyclesOf(series(24, (k) => (k % 2 === 0 ? 6.58 : 16.36))).map((one, k) => ({
      ...one,
      book: { ...one.book, drift: (k % 2 === 0 ? -7 : 7) / one.book.released },
    }));
    expect(Math.abs(meanOf(cycles.map(({ book }) => book.drift)))).toBeGreaterThan(0.03);
    expect(driftOf(cycles)).toBeLessThan(1e-12);
    expect(alternationOf(cycles)?.period).toBe(2);
    const gaining = cycles.map((one) => ({ ...one, book: { ...one.book, drift: 0.01 } }));
    expect(alternationOf(gaining)).toBeNull();
  });

  test('that dies away is not taken for one that lasts', () => {
    expect(alternationOf(cyclesOf(series(24, (k) => 20 + 4 * (-0.9) ** k)))).toBeNull();
  });

  test('is not one where the wave is found now and then only', () => {
    const cycles = cyclesOf(series(24, (k) => 20 + 5 * (k % 2)));
    const blind = cycles.map((one, k) =>
      k === 20
        ? {
            ...one,
            reading: { ...one.reading, plugBack: { ...one.reading.plugBack, centroidDeg: null } },
          }
        : one,
    );
    expect(alternationOf(cycles)?.period).toBe(2);
    expect(alternationOf(blind)).toBeNull();
  });
});

describe('a steady mean', () => {
  test('the error of a mean of unrelated values is s / sqrt(n), within what blocks of 60 values can say', () => {
    const next = noise(3);
    const errors = series(200, () => errorOfMean(series(60, () => 20 + 2 * next())));
    expect(meanOf(errors) * 20).toBeGreaterThan(0.95 * (2 / Math.sqrt(60)));
    expect(meanOf(errors) * 20).toBeLessThan(1.2 * (2 / Math.sqrt(60)));
  });

  test('what alternates with some noise has one, the same noise about a slow swing has none', () => {
    const [one, other] = [noise(3), noise(3)];
    const alternating = series(48, (k) => 20 + 3 * (-1) ** k + 0.15 * one());
    const swinging = series(48, (k) => 20 + 3 * Math.sin(k / 5) + 0.15 * other());
    expect(steadyWindow(cyclesOf(alternating))).not.toBeNull();
    expect(steadyWindow(cyclesOf(swinging))).toBeNull();
  });

  test('means that are taken for steady are within 1.5 % of the true one, of noise of any size', () => {
    let taken = 0;
    for (let seed = 0; seed < 300; seed++) {
      const next = noise(100 + seed);
      const size = 0.2 + (seed % 30) / 10;
      const window = steadyWindow(cyclesOf(series(60, () => 20 + size * next())));
      if (window === null) continue;
      taken++;
      const mean = meanOf(window.map(({ reading }) => reading.output.torque));
      expect(Math.abs(mean / 20 - 1), `seed ${seed}`).toBeLessThan(0.015);
    }
    expect(taken).toBeGreaterThan(30);
    expect(taken).toBeLessThan(250);
  });
});

describe('a creep', () => {
  test('that dies away has the rest of its geometric series before it', () => {
    for (const ratio of [0.5, 0.9, 0.99]) {
      const value = (k: number): number => 20 + 3 * ratio ** k;
      // From the mean of the last three of nine to the end; what dies so slowly that a stretch is 0.95 of the last is cut there.
      const rest = 20 - meanOf(series(3, (k) => value(k + 6)));
      const found = remainderOf(series(9, value));
      if (ratio ** 3 < 0.95) expect(found).toBeCloseTo(rest, 10);
      else expect(Math.abs(found)).toBeLessThan(Math.abs(rest));
    }
  });

  test('that does not die away is long, and what goes to and fro has none', () => {
    expect(remainderOf(series(9, (k) => k))).toBeCloseTo((3 * 0.95) / 0.05, 10);
    expect(remainderOf([1, 2, 3, 2, 1, 2, 3, 2, 1])).toBe(0);
    expect(remainderOf([1, 2])).toBe(0);
  });
});

describe('two states', () => {
  test('are told where a series keeps to one, then to the other', () => {
    const found = statesOf([10, 10.2, 9.9, 10.1, 15, 15.3, 14.9, 15.1, 10, 10.1, 10.2, 9.8]);
    expect(found?.[0]).toBeCloseTo(10.04, 1);
    expect(found?.[1]).toBeCloseTo(15.08, 1);
  });

  test('are not in what alternates, swings or is noise', () => {
    expect(statesOf(series(24, (k) => 10 + 5 * (k % 2)))).toBeNull();
    expect(statesOf(series(24, (k) => 10 + Math.sin(k / 3)))).toBeNull();
    const next = noise(7);
    expect(statesOf(series(24, () => 10 + next()))).toBeNull();
  });
});
