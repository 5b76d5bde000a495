/**
 * The burst into a chamber against an independent flow computation in two dimensions: tests/reference/README.md says how
 * that was made and what a perfect one-dimensional code can reach. Ring: independent computation.
 */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { loadPulse } from '../../../src/case/load.ts';
import type { PulseResult } from '../../../src/study/pulse/result.ts';
import { runPulse } from '../../../src/study/pulse/run-pulse.ts';

const root = new URL('../../../', import.meta.url);
const [heads = [], ...rows] = readFileSync(new URL('tests/reference/burst-axisymmetric.csv', root), 'utf8')
  .trim()
  .split('\n')
  .map((line) => line.split(','));
const pulse = loadPulse(new URL('cases/pulse/burst-chamber.yaml', root).pathname);

const reference = (station: string): number[] => {
  const column = heads.indexOf(`${station}_pressure_pa`);
  return rows.map((row) => Number(row[column]));
};

/** Mean over 50 us, eleven samples 5 us apart. */
function smoothed(values: readonly number[]): number[] {
  return values.map((_, i) => {
    const near = values.slice(Math.max(0, i - 5), i + 6);
    return near.reduce((sum, value) => sum + value, 0) / near.length;
  });
}

/** Root mean square of the difference over the station's peak overpressure, both smoothed [%]. */
function miss(result: PulseResult, station: string): number {
  const theirs = smoothed(reference(station));
  const ours = smoothed(result.probes.find(({ name }) => name === station)!.pressure);
  const square = theirs.reduce((sum, value, i) => sum + (value - ours[i]!) ** 2, 0) / theirs.length;
  return (100 * Math.sqrt(square)) / (Math.max(...theirs) - 1e5);
}

/** Time of the reflected peak at x = 50 mm, smoothed, with a parabola through the highest three samples [ms]. */
function reflectedPeak(result: PulseResult): number {
  const trace = smoothed(result.probes.find(({ name }) => name === 'x050')!.pressure);
  const from = 600;
  const top = trace.slice(from).reduce((best, value, i, all) => (value > all[best]! ? i : best), 0) + from;
  const [a, b, c] = [trace[top - 1]!, trace[top]!, trace[top + 1]!];
  return 1000 * (result.time[top]! + 5e-6 * ((0.5 * (a - c)) / (a - 2 * b + c)));
}

// Percent of the peak overpressure, at 5 mm cells.
const BOUNDS = [
  ['x050', 0.9],
  ['x275', 0.9],
  ['x450', 0.9],
  ['x600', 1.0],
  ['x740', 1.3],
  ['x930', 1.9],
] as const;

// Half a radius suits this strong pulse and flanged end best, 0.6 is what a file gets that says nothing.
describe.each([0.5, 0.6])('with an end correction of %s radii', (endCorrection) => {
  const result = runPulse({ ...pulse, rightEnd: { kind: 'open', endCorrection } });

  test.each(BOUNDS)('the trace at %s is within %s %', (station, bound) => {
    expect(result.time.length).toBe(rows.length);
    expect(miss(result, station)).toBeLessThan(bound);
  });

  test('the reflected peak at x = 50 mm comes within 0.015 ms of 3.994 ms', () => {
    expect(Math.abs(reflectedPeak(result) - 3.994)).toBeLessThan(0.015);
  });
});

test('without an end correction the stinger is too short: its trace misses by more than twice as much', () => {
  const result = runPulse({ ...pulse, rightEnd: { kind: 'open', endCorrection: 0 } });
  expect(miss(result, 'x930')).toBeGreaterThan(3);
});

test('the case itself is at the cell and with the samples of the comparison', () => {
  expect(pulse.cell).toBe(5e-3);
  expect(pulse.sampleEvery).toBe(5e-6);
  const result = runPulse(pulse);
  expect(Math.abs(result.balance.massError)).toBeLessThan(1e-12);
  expect(Math.abs(result.balance.energyError)).toBeLessThan(1e-12);
});
