import { describe, expect, it } from 'vitest';
import {
  displacement,
  perfectMixing,
  threeWayStream,
  trappingEfficiency,
  twoZone,
} from '../../exact/scavenging.ts';
import { expectPrinted, expectRow } from './digits.ts';

describe('scavenging', () => {
  // Heywood, Internal Combustion Engine Fundamentals (1988), section 6.6: perfect mixing, SE and TE.
  it.each([
    [0.5, '0.393469 0.786939'],
    [0.8, '0.550671 0.688339'],
    [0.93, '0.605446 0.651018'],
    [1, '0.632121 0.632121'],
    [1.2, '0.698806 0.582338'],
    [1.45, '0.765430 0.527883'],
    [1.5, '0.776870 0.517913'],
    [2, '0.864665 0.432332'],
  ] as const)('perfect mixing at SR %s', (sr, row) => {
    const se = perfectMixing(sr);
    expectRow([se, trappingEfficiency(se, sr)], row);
  });

  it('perfect displacement', () => {
    expect([0.5, 1, 1.6].map(displacement)).toEqual([0.5, 1, 1]);
    expect(trappingEfficiency(displacement(1.6), 1.6)).toBeCloseTo(1 / 1.6, 14);
    expect(trappingEfficiency(0, 0)).toBe(1);
  });

  it('two zones (Benson and Brandham, from memory), mixing volume 0.3', () => {
    expectPrinted(twoZone(1, 0.3), '0.889636');
    expectPrinted(twoZone(1.5, 0.3), '0.979155');
    expect(twoZone(1.5, 0.3, 0.2)).toBeCloseTo(twoZone(1.2, 0.3), 14);
    // Smooth where mixing sets in, perfect mixing for a mixing volume of 1.
    const e = 1e-6;
    expect((twoZone(0.7 + e, 0.3) - twoZone(0.7, 0.3)) / e).toBeCloseTo(1, 5);
    expect(twoZone(0.8, 1)).toBeCloseTo(perfectMixing(0.8), 12);
  });

  it('three-way stream: its limits', () => {
    for (const sr of [0.3, 0.9, 1.7]) {
      expect(threeWayStream(sr, 1)).toBeCloseTo(displacement(sr), 12);
      expect(threeWayStream(sr, 0)).toBe(perfectMixing(sr));
      expect(threeWayStream(sr, 1e-9)).toBeCloseTo(perfectMixing(sr), 8);
      expect(threeWayStream(sr, 0.4, 1)).toBeCloseTo(0, 14);
      expect(threeWayStream(sr, 0.4, 0.25)).toBe(threeWayStream(0.75 * sr, 0.4));
    }
    expect(threeWayStream(3, 0.5)).toBe(1);
  });

  it('three-way stream: the two zones integrated by Runge and Kutta', () => {
    for (const d of [0.2, 0.5, 0.8]) {
      // Burnt gas b in an old zone of volume v: db/ds = -b/v, dv/ds = -d.
      let b = 1;
      const n = 2000;
      const ds = 1.1 / n;
      const rate = (s: number, burnt: number) => -burnt / (1 - d * s);
      for (let i = 0; i < n; i += 1) {
        const s = i * ds;
        const k1 = rate(s, b);
        const k2 = rate(s + ds / 2, b + (ds / 2) * k1);
        const k3 = rate(s + ds / 2, b + (ds / 2) * k2);
        b += (ds / 6) * (k1 + 2 * k2 + 2 * k3 + rate(s + ds, b + ds * k3));
      }
      expect(1 - b).toBeCloseTo(threeWayStream(1.1, d), 9);
    }
  });
});
