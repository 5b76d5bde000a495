/**
 * Ring: identity. Shares of a row are shares and angles are in their order, whatever engine was drawn at random; what has no
 * meaning is empty and has its note. Each of these engines once gave a row that cannot be.
 */

import { describe, expect, test } from 'vitest';
import { loadCase } from '../../src/case/load.ts';
import { runSpeed } from '../../src/engine/run/run-speed.ts';
import type { SpeedRecord } from '../../src/findings/record.ts';

const fileOf = (name: string): string => new URL(`../repro/${name}.yaml`, import.meta.url).pathname;

function recordOf(name: string, rpm: number, set: readonly string[] = []): SpeedRecord {
  const subject = loadCase(fileOf(name), { set: [...set] });
  return runSpeed({ subject, rpm, start: null, brief: true }).record;
}

function expectPossible({ row, notes }: SpeedRecord): void {
  const { scavenging_efficiency: scavenging, trapping_efficiency: trapping, delivery_ratio: delivery } = row;
  expect(scavenging).toBeGreaterThanOrEqual(0);
  expect(scavenging).toBeLessThanOrEqual(1);
  for (const share of [trapping ?? 0, row.plugback_share_before_closing ?? 0]) {
    expect(share).toBeGreaterThanOrEqual(0);
    expect(share).toBeLessThanOrEqual(1);
  }
  expect(delivery ?? 0).toBeGreaterThanOrEqual(0);
  expect(row.transfer_backflow_ratio ?? 0).toBeGreaterThanOrEqual(0);
  if (trapping === null) expect(notes.join(' ')).toContain('no trapping efficiency');
  const angles = [
    row.plugback_onset_deg,
    row.plugback_peak_deg,
    row.plugback_centroid_deg,
    row.plugback_end_deg,
  ];
  const known = angles.filter((deg) => deg !== null);
  expect([0, 4]).toContain(known.length);
  if (known.length === 4) {
    const [onset, peak, middle, end] = known as [number, number, number, number];
    expect(end).toBeGreaterThan(onset);
    for (const deg of [peak, middle]) {
      expect(deg).toBeGreaterThanOrEqual(onset);
      expect(deg).toBeLessThanOrEqual(end);
    }
  }
  expect(JSON.stringify({ row, notes })).not.toContain('NaN');
}

describe('a row can be', () => {
  test.each([
    ['scav-over-1-500015', 6261],
    ['trapping-over-1-settled-500029', 14_391],
    ['negative-delivery-400056', 4282],
    ['degenerate-plugback-5', 2781],
    ['nan-note-400008', 13_075],
  ])('%s at %i rpm', (name, rpm) => expectPossible(recordOf(name, rpm)));
});

test('a fuel that gives off no heat is refused at the door, not balanced to nothing', () => {
  expect(() => loadCase(fileOf('energy-400106'))).toThrow(/no heat/);
});

describe('a pipe of three states', () => {
  const at = (rpm: number): SpeedRecord => recordOf('empirical-8200', rpm, ['run.cell=20mm']);

  test('has an echo that ends the suction at 8 200 rpm, with its angle and its way', () => {
    const { row, notes } = at(8200);
    expect(notes.join(' ')).toMatch(
      /echo of the last .* is back at 17\d deg.* ends the suction early .* left the port at/,
    );
    expect(row.transfer_compression_bar).toBeGreaterThan(0.3);
    expect(row.suction_length_deg).toBeLessThan(55);
  });

  test('has none at 8 500 rpm', () => {
    const { row, notes } = at(8500);
    expect(notes.join(' ')).not.toContain('ends the suction');
    expect(row.transfer_compression_bar ?? 0).toBeLessThan(0.15);
    expect(row.suction_length_deg).toBeGreaterThan(70);
  });
});
