/** Ring: identity. An engine whose charge would burn outside the shut cylinder is refused with the reason. */

import { describe, expect, test } from 'vitest';
import { loadCase } from '../../src/case/load.ts';
import { demo, type Edit, edited, problems } from './files.ts';

const burning = (keys: string): Edit => ['intake:', `combustion: { ${keys} }\nintake:`];
const ofEngine = (...edits: readonly Edit[]): string => problems(() => loadCase(edited({ engine: edits })));

describe('heat release of an engine that opens its exhaust at 82.5 deg and shuts it 82.5 deg before top dead centre', () => {
  const line =
    demo('engine.yaml')
      .split('\n')
      .findIndex((text) => text.startsWith('intake:')) + 1;

  test('beyond exhaust opening', () => {
    const message = ofEngine(burning('start: -14 deg, duration: 97 deg'));
    expect(message).toContain(
      `engine.yaml:${line}:41: engine.combustion.duration: heat release from -14 deg to 83 deg would go on after the exhaust opens, at 82.5 deg`,
    );
    expect(message).toContain('at most 96.5 deg from this start');
  });

  test('beyond it by a late start alone, the duration being assumed', () => {
    expect(ofEngine(burning('start: 40 deg'))).toContain(
      'engine.combustion.duration: heat release from 40 deg to 92 deg would go on after the exhaust opens',
    );
  });

  test('beyond it on a lifted barrel, whose exhaust opens earlier', () => {
    const late = burning('start: -14 deg, duration: 96 deg');
    expect(loadCase(edited({ engine: [late] })).engine.combustion.durationDeg).toBe(96);
    expect(ofEngine(late, ['rod: 115 mm', 'rod: 115 mm\nbarrelLift: 1 mm'])).toMatch(
      /engine\.combustion\.duration: .* would go on after the exhaust opens, at 8\d\./,
    );
  });

  test('before exhaust closing', () => {
    expect(ofEngine(burning('start: -85 deg'))).toContain(
      'engine.combustion.start: heat release from -85 deg on would begin before the exhaust is shut, at -82.5 deg',
    );
  });

  test('within is taken', () => {
    const { combustion } = loadCase(
      edited({ engine: [burning('start: -82 deg, duration: 164 deg')] }),
    ).engine;
    expect((combustion.start[0]?.deg ?? 0) + combustion.durationDeg).toBe(82);
  });
});
