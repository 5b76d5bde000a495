import { describe, expect, it } from 'vitest';
import { packSweep } from '../../plots/pages/pack-sweep.ts';
import { unpackSpeed } from '../../plots/pages/packed-sweep.ts';
import { evenly, pack, resample, unpack } from '../../plots/pages/packing.ts';
import { fieldOf, resampleField } from '../../plots/pages/resample-field.ts';
import { syntheticSweep } from './synthetic-sweep.ts';

describe('packed numbers', () => {
  it('come back to within half a step of their bits', () => {
    const values = Float64Array.from({ length: 500 }, (_, i) => 3 * Math.sin(i));
    for (const [bits, steps] of [
      [8, 255],
      [16, 65_535],
    ] as const) {
      const back = unpack(pack(values, bits));
      const worst = Math.max(...values.map((value, i) => Math.abs(value - (back[i] ?? 0))));
      expect(worst).toBeLessThanOrEqual((0.5 * 6) / steps + 1e-12);
      expect(worst).toBeGreaterThan(0);
    }
  });

  it('hold a constant series and an empty one', () => {
    expect([...unpack(pack([2, 2, 2], 16))]).toEqual([2, 2, 2]);
    expect([...unpack(pack([], 8))]).toEqual([]);
  });

  it('interpolate straight lines and planes exactly, and hold the ends beyond them', () => {
    const at = [0, 1, 4, 9];
    expect([...resample(at, [1, 3, 9, 19], [0.5, 2, 8, 12])]).toEqual([2, 5, 17, 19]);
    const plane = [0, 1, 2].flatMap((row) => at.map((column) => 10 * row + column));
    const fresh = resampleField(fieldOf([0, 1, 2], at, plane), [0.5, 2], [0.5, 8]);
    expect(fresh.shape).toEqual([2, 2]);
    expect([...fresh.data]).toEqual([5.5, 13, 20.5, 28]);
    const beyond = resampleField(fieldOf([0, 1, 2], at, plane), [3], [-1, 10]);
    expect([...beyond.data]).toEqual([20, 29]);
  });
});

describe('a packed sweep', () => {
  const sweep = syntheticSweep({ from: 9000, to: 9500, step: 250 });
  const packed = packSweep(sweep);

  it('gives each speed its traces again, in bar and mm²', () => {
    const drawn = unpackSpeed(packed, 1);
    const source = sweep.speeds[1];
    expect(drawn?.row.speed_rpm).toBe(9250);
    const pressure = source?.traces.portPressure ?? [];
    expect(drawn?.traces.port.length).toBe(pressure.length);
    const worst = Math.max(
      ...pressure.map((value, i) => Math.abs(value / 1e5 - (drawn?.traces.port[i] ?? 0))),
    );
    expect(worst).toBeLessThan(1e-4);
    expect(Math.max(...Array.from(drawn?.traces.exhaustArea ?? []))).toBeCloseTo(900, 0);
  });

  it('keeps the field to a shade and shares one scale over all speeds', () => {
    const drawn = unpackSpeed(packed, 0);
    const { lowest, highest } = packed.scale;
    expect(drawn?.field.pressure).toHaveLength(packed.fieldAngles);
    expect(drawn?.field.lowest).toBe(lowest);
    const source = sweep.speeds[0];
    const positions = source?.diagram.positions ?? [];
    const column = positions.length - 1;
    const row = 60;
    const true_ = (source?.diagram.pressure[row * positions.length + column] ?? 0) / 1e5;
    const place = positions[column] ?? 0;
    const fresh = evenly(packed.positions.from, packed.positions.to, packed.positions.count);
    const index = fresh.findIndex((x) => x >= 1000 * place);
    const step = (highest - lowest) / 255;
    expect(Math.abs((drawn?.field.pressure[row]?.[index] ?? 0) - true_)).toBeLessThan(2 * step);
  });

  it('takes less than 100 kB a speed', () => {
    expect(JSON.stringify(packed.speeds[0]).length).toBeLessThan(100_000);
  });
});
