/** Ring: identity. Weather and mixture: each changes one input by its step, and what it does to a band is read from the sweep. */

import { describe, expect, test } from 'vitest';
import { weatherTable } from '../../../plots/pages/weather-words.ts';
import { caseOf, openFile } from '../../../src/case/load.ts';
import { weatherText } from '../../../src/commands/words/weather-text.ts';
import { weatherEffect } from '../../../src/findings/answers/weather.ts';
import type { SweepRow } from '../../../src/findings/row.ts';
import { weatherEffects, weatherVariants } from '../../../src/study/sweep/weather.ts';
import { thinnerAir } from '../../../src/timing/weather.ts';
import { CASES } from '../../case/files.ts';
import { syntheticSweep } from '../../plots/synthetic-sweep.ts';

const base = syntheticSweep().rows[0] as SweepRow;
/** The middle comes 4 degrees later with each 250 rpm. */
const rows = [10_000, 10_250, 10_500, 10_750].map(
  (speed_rpm, k): SweepRow => ({ ...base, speed_rpm, plugback_centroid_deg: 250 + 4 * k }),
);
const move = { path: 'x', change: '+10 K', torqueNm: -0.4, leadDeg: 0.8 };

describe('a variant', () => {
  test('changes one input, by its step', () => {
    const opened = openFile(`${CASES}saltmarsh-125/draft-a.yaml`);
    const { engine } = caseOf(opened, []);
    const [warmer, lower, leaner] = weatherVariants(opened, []).map(({ subject }) => subject.engine);
    expect(warmer?.ambient).toEqual({ ...engine.ambient, temperature: engine.ambient.temperature + 10 });
    expect(lower?.ambient).toEqual({ ...engine.ambient, pressure: engine.ambient.pressure - 2000 });
    expect(leaner?.ambient).toEqual(engine.ambient);
    expect(leaner?.fuel.equivalenceRatio).toBeCloseTo(0.96 * engine.fuel.equivalenceRatio, 12);
  });

  test('keeps what was overridden', () => {
    const opened = openFile(`${CASES}saltmarsh-125/draft-a.yaml`);
    const [warmer] = weatherVariants(opened, ['engine.ambient.temperature=30 degC']);
    expect(warmer?.subject.engine.ambient.temperature).toBeCloseTo(313.15, 9);
  });
});

describe('an effect', () => {
  test('moves the band by the speeds over which the middle comes as much later', () => {
    expect(weatherEffect('warmer', move, rows, 10_250).bandRpm).toBeCloseTo(50, 9);
    expect(weatherEffect('warmer', { ...move, leadDeg: null }, rows, 10_250).bandRpm).toBeNull();
    const flat = rows.map((row): SweepRow => ({ ...row, plugback_centroid_deg: 250 }));
    expect(weatherEffect('warmer', move, flat, 10_250).bandRpm).toBeNull();
    expect(weatherEffect('warmer', undefined, rows, 10_250).torqueNm).toBeNull();
  });

  test('is a line of the table in terminal and page, with the caution on leaning once in the terminal', () => {
    const effects = weatherEffects([move, move, move], rows, 10_250);
    const text = weatherText(effects, 10_250);
    expect(text).toMatch(/air warmer +\+10 K +-0\.40 +\+0\.8 +\+50 +smaller/);
    expect(text.match(/seizes/g)).toHaveLength(1);
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
    expect(String(weatherTable(effects, 10_250))).toContain('−0.40');
  });
});

test('air is thinner as pressure over temperature', () => {
  const { warmer, lower } = thinnerAir({ pressure: 1e5, temperature: 290 });
  expect(warmer).toBeCloseTo(1 - 290 / 300, 12);
  expect(lower).toBeCloseTo(0.02, 12);
});
