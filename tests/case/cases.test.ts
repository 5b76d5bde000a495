/** Ring: identity. Every example case loads as it lies, and resolves to what its file says. */

import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { describeInputs, loadCase, loadEngine, loadPipe, loadPulse, readKind } from '../../src/case/load.ts';
import { loadMeasured } from '../../src/case/measured/measured-load.ts';
import { crankOf } from '../../src/timing/crank.ts';
import { trappedTravel } from '../../src/timing/volume.ts';
import { CASES, DRAFTS, edited, file } from './files.ts';

const LOADERS = {
  case: loadCase,
  engine: loadEngine,
  pipe: loadPipe,
  pulse: loadPulse,
  measured: loadMeasured,
} as const;
const files = readdirSync(CASES, { recursive: true, encoding: 'utf8' }).filter((name) =>
  name.endsWith('.yaml'),
);
const loadable = files.filter((name) => readKind(join(CASES, name)) !== 'study');

describe('examples', () => {
  test('there are some of every kind', () => {
    expect(new Set(loadable.map((name) => readKind(join(CASES, name))))).toEqual(
      new Set(['case', 'engine', 'measured', 'pipe', 'pulse']),
    );
  });

  test.each(loadable)('%s loads', (name) => {
    const kind = readKind(join(CASES, name));
    if (kind === 'study') return;
    // The name is the file's own, or the file is called by it.
    const stated = /^name: *(.+?) *$/m.exec(readFileSync(join(CASES, name), 'utf8'))?.[1];
    expect(LOADERS[kind](join(CASES, name)).name).toBe(stated ?? basename(name, '.yaml'));
  });

  test.each(files.filter((name) => !name.startsWith('pulse/')))('%s says that it is invented', (name) => {
    expect(readFileSync(join(CASES, name), 'utf8')).toMatch(/invented/i);
  });
});

describe('the Saltmarsh 125', () => {
  const loaded = loadCase(join(DRAFTS, 'saltmarsh-125/draft-a.yaml'));

  test('is in SI', () => {
    const { engine, pipe, run } = loaded;
    expect([engine.bore, engine.stroke, engine.rod]).toEqual([0.054, 0.0545, 0.115]);
    expect(engine.exhaust.windows[0]!.roof).toEqual({ by: 'duration', durationDeg: 195 });
    expect(engine.passage.exitArea).toBeCloseTo((Math.PI / 4) * 0.038 ** 2, 12);
    // Swept volume of bore and stroke over compression less one.
    expect(engine.crankcase.volume).toBeCloseTo(((Math.PI / 4) * 0.054 ** 2 * 0.0545) / 0.35, 12);
    expect(pipe.sections.map((section) => section.role)).toEqual([
      'header',
      'diffuser',
      'diffuser',
      'belly',
      'baffle',
      'stinger',
    ]);
    expect(pipe.sections[3]!.diameter).toEqual([0.102, 0.102]);
    expect(run.speeds).toHaveLength(25);
    expect([run.speeds[0], run.speeds.at(-1), run.targetSpeed]).toEqual([7000, 13000, 11000]);
  });

  test('lists what it assumed, with a reason and a unit, and nothing that was stated', () => {
    const paths = loaded.assumed.map((one) => one.path);
    expect(paths).toContain('engine.scavenging.twoZone.mixingVolume');
    expect(paths).toContain('engine.passage.entryArea');
    expect(paths).toContain('pipe.wall');
    expect(paths).not.toContain('engine.bore');
    expect(new Set(paths).size).toBe(paths.length);
    for (const one of loaded.assumed) expect(one.reason.length, one.path).toBeGreaterThan(8);
    expect(loaded.assumed.find((one) => one.path === 'engine.cylinderHeat.wallTemperature')).toEqual({
      path: 'engine.cylinderHeat.wallTemperature',
      value: '470 K',
      reason: 'common practice, no source',
      sort: 'quantity',
    });
  });

  test('describes every input', () => {
    const inputs = describeInputs(loaded);
    expect(inputs.find((one) => one.path === 'engine.bore')).toMatchObject({
      value: '54 mm',
      assumed: false,
      reason: '',
      sort: 'stated',
    });
    expect(inputs.find((one) => one.path === 'engine.ambient.pressure')).toMatchObject({
      value: '1.01325 bar',
      assumed: true,
      reason: 'sea level (ISO 2533)',
    });
    expect(inputs.filter((one) => one.assumed).length).toBe(loaded.assumed.length);
  });

  test('reflects from the middle of the baffle where the handbook wants it', () => {
    // L = 83.33 a E / N (Blair 1996: 83.3) at 195 deg, 11 000 rpm and 592 m/s (600 degC): 874.5 mm from the piston.
    const middle = (name: string): number => {
      const { engine, pipe } = loadCase(join(DRAFTS, `saltmarsh-125/draft-${name}.yaml`));
      const baffle = pipe.sections.findIndex((section) => section.role === 'baffle');
      const before = pipe.sections
        .slice(0, baffle)
        .reduce((sum, section) => sum + section.length, engine.passage.length);
      return before + pipe.sections[baffle]!.length / 2;
    };
    expect(middle('a')).toBeCloseTo(0.873, 3);
    expect(middle('b')).toBeCloseTo(0.8755, 3);
    expect(middle('c')).toBeCloseTo(0.973, 3);
  });
});

describe('inline parts and other intakes', () => {
  test('an engine and a pipe may stand in the case', () => {
    const inline = (text: string): string =>
      text
        .split('\n')
        .map((line) => `  ${line}`)
        .join('\n');
    const engine = inline(readFileSync(join(DRAFTS, 'saltmarsh-125/engine.yaml'), 'utf8'));
    const pipe = inline(readFileSync(join(DRAFTS, 'saltmarsh-125/pipe-a.yaml'), 'utf8'));
    const whole = loadCase(file('inline.yaml', `kind: case\nengine:\n${engine}\npipe:\n${pipe}\n`));
    const apart = loadCase(join(DRAFTS, 'saltmarsh-125/draft-a.yaml'));
    expect(whole.engine).toEqual(apart.engine);
    expect(whole.pipe).toEqual(apart.pipe);
    expect(whole.name).toBe('inline');
  });

  const tract = 'tract: [ { length: 200 mm, diameter: 38 mm } ]';
  const withIntake = (intake: string) =>
    loadCase(edited({ engine: [['intake:\n  reed:', `intake:\n  ${intake}\nnote: |\n  reed:`]] })).engine
      .intake;

  test('a piston port', () => {
    expect(
      withIntake(`pistonPort: { ${tract}, duration: 160 deg, width: 38 mm, height: 26 mm, corners: 4 mm }`),
    ).toMatchObject({
      kind: 'piston-port',
      durationDeg: 160,
      cornerRadius: 0.004,
      discharge: 0.75,
    });
  });

  test('a disc', () => {
    expect(withIntake(`disc: { ${tract}, opens: -140 deg, closes: 80 deg, area: 900 mm2 }`)).toMatchObject({
      kind: 'disc',
      opensDeg: -140,
      closesDeg: 80,
      area: 900e-6,
      rampDeg: 35,
    });
  });
});

describe('roofs and lifts', () => {
  const { engine } = loadCase(join(DRAFTS, 'saltmarsh-125/draft-a.yaml'));
  const variation = (...set: string[]) =>
    loadCase(join(DRAFTS, 'saltmarsh-125/draft-a.yaml'), { set }).engine;

  test('a roof measured from the deck loses the height of the deck above the crown', () => {
    const measured = variation('engine.exhaust.windows.main.roof=27 mm', 'engine.crownBelowDeck=0.3 mm');
    const { roof } = measured.exhaust.windows[0]!;
    expect(roof).toMatchObject({ by: 'travel' });
    expect(roof.by === 'travel' && roof.travel).toBeCloseTo(0.0267, 12);
  });

  test('a raised roof moves up by that much, its floor stays', () => {
    const before = engine.exhaust.windows[1]!;
    const after = variation('engine.exhaust.windows.side.raise += 1 mm').exhaust.windows[1]!;
    const crank = crankOf(engine);
    const travel = trappedTravel({ ...engine, exhaust: { ...engine.exhaust, windows: [before] } }, crank);
    expect(after.roof.by === 'travel' && after.roof.travel).toBeCloseTo(travel - 0.001, 12);
    expect(after.height).toBeCloseTo(before.height! + 0.001, 12);
  });

  test('a lifted barrel lifts every window with its floor, and adds its disc to the clearance', () => {
    const lifted = variation('engine.barrelLift=0.5 mm');
    const crank = crankOf(engine);
    const area = (Math.PI / 4) * 0.054 ** 2;
    const travel = trappedTravel(engine, crank);
    const [main, side] = lifted.exhaust.windows;
    expect(main!.roof.by === 'travel' && main!.roof.travel).toBeCloseTo(travel - 0.0005, 12);
    expect(main!.height).toBeCloseTo(0.0545 - travel, 12);
    expect(side!.height).toBe(0.012);
    // Clearance A s/(ratio-1) before; after it holds A (s-b) over A s/(ratio-1) + A b.
    const clearance = travel / 6.5;
    expect(lifted.compression.ratio).toBeCloseTo(1 + (travel - 0.0005) / (clearance + 0.0005), 9);
    expect(lifted.crankcase.volume - engine.crankcase.volume).toBeCloseTo(area * 0.0005, 15);
    expect(lifted.crownBelowDeck).toBe(0.0005);
    expect(lifted.barrelLift).toBe(0.0005);
  });

  test('a lift over the full stroke, and one that would meet the head', () => {
    const full = variation('engine.compression.full=14', 'engine.barrelLift=0.5 mm');
    const clearance = 0.0545 / 13;
    expect(full.compression.ratio).toBeCloseTo(1 + 0.0545 / (clearance + 0.0005), 9);
    expect(() => variation('engine.compression.full=14', 'engine.barrelLift=-5 mm')).toThrow(
      /the crown meets the head/,
    );
  });
});
