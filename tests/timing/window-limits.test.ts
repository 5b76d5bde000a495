/**
 * Ring: identity. Limits of windows that depend on the engine: the width that a bore stands, the wall between windows.
 */
import { describe, expect, it } from 'vitest';
import type { Engine } from '../../src/model/engine.ts';
import type { PortWindow } from '../../src/model/port-window.ts';
import { MM, ruleOf, withEngine, withExhaust } from './odd-engines.ts';
import { engine, exhaustWindow, saltmarsh } from './saltmarsh.ts';

describe('the width that a bore stands', () => {
  const limit = (changes: Partial<Engine>, window: Partial<PortWindow> = {}) => {
    const windows = [{ ...exhaustWindow, ...window }];
    const subject = withEngine({ ...changes, exhaust: { ...engine.exhaust, windows } });
    return ruleOf(subject, 'exhaust-window-width').usual[1];
  };
  it('is about 70 %, more in a small bore and less in a large one (common practice, no source)', () => {
    expect(limit({})).toBeCloseTo(70, 0);
    expect(limit({ bore: 44 * MM }, { width: 30 * MM })).toBeGreaterThan(limit({}, { width: 30 * MM }));
    expect(limit({ bore: 68 * MM })).toBeLessThan(limit({}));
  });
  it('is more with a rounded roof than with a flat one', () => {
    const flat = limit({}, { roofArch: 0, cornerTop: 1 * MM });
    expect(limit({})).toBeGreaterThan(flat + 2);
  });
});

it('a side window above the transfers leaves the wall between exhaust and transfer as it was', () => {
  const side = {
    count: 2,
    width: 8 * MM,
    cornerTop: 2 * MM,
    cornerBottom: 2 * MM,
    aroundDeg: 75,
    roofArch: 0,
  };
  const high = withExhaust({}, { ...side, height: 12 * MM });
  const plain = ruleOf(saltmarsh, 'exhaust-transfer-land').found;
  expect(ruleOf(high, 'exhaust-transfer-land').found).toBe(plain);
  const low = withExhaust({}, { ...side, height: 20 * MM });
  expect(ruleOf(low, 'exhaust-transfer-land').outside).toBe('below');
});
