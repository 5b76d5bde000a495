/** Ring: identity. Overrides give what the file would give, and are checked like it. */

import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { caseOf, loadCase, loadPulse, openFile } from '../../src/case/load.ts';
import { withExhaustDuration } from '../../src/study/map/exhaust-duration.ts';
import { compressionRatios, volumesOf } from '../../src/timing/volume.ts';
import { CASES, DRAFTS, type Edit, edited, problems } from './files.ts';

const draft = join(DRAFTS, 'saltmarsh-125/draft-a.yaml');
const refused = (...set: string[]): string => problems(() => loadCase(draft, { set }));
const parts = ({ engine, pipe, run }: ReturnType<typeof loadCase>) => ({ engine, pipe, run });

describe('an override gives what the file would', () => {
  test.each<[string, { engine?: readonly Edit[]; pipe?: readonly Edit[]; case?: readonly Edit[] }]>([
    ['engine.bore=55 mm', { engine: [['bore: 54 mm', 'bore: 55 mm']] }],
    ['engine.exhaust.windows.0.width=42 mm', { engine: [['width: 41 mm', 'width: 42 mm']] }],
    ['engine.exhaust.windows[0].width = 42 mm', { engine: [['width: 41 mm', 'width: 42 mm']] }],
    ['engine.exhaust.windows.main.width += 1 mm', { engine: [['width: 41 mm', 'width: 42 mm']] }],
    ['engine.exhaust.windows.main.width-=1mm', { engine: [['width: 41 mm', 'width: 40 mm']] }],
    [
      'engine.exhaust.windows.main.duration=196 deg',
      { engine: [['duration: 195 deg', 'duration: 196 deg']] },
    ],
    [
      'engine.exhaust.windows.main.roof.duration=196 deg',
      { engine: [['duration: 195 deg', 'duration: 196 deg']] },
    ],
    ['engine.exhaust.windows.main.roof=26 mm', { engine: [['duration: 195 deg', 'roof: 26 mm']] }],
    ['engine.exhaust.windows.main.opens=82 deg', { engine: [['duration: 195 deg', 'opens: 82 deg']] }],
    [
      'engine.exhaust.windows.main.corners=5 mm',
      { engine: [['corners: { top: 8 mm, bottom: 9 mm }', 'corners: 5 mm']] },
    ],
    [
      'engine.exhaust.windows.main.chamfer={height: 0.6 mm, depth: 0.4 mm}',
      { engine: [['arch: 2 mm', 'arch: 2 mm\n      chamfer: { height: 0.6 mm, depth: 0.4 mm }']] },
    ],
    ['engine.crankcase.volume=300 cc', { engine: [['compression: 1.35', 'volume: 300 cc']] }],
    ['engine.compression.full=14', { engine: [['trapped: 7.5', 'full: 14']] }],
    [
      'engine.ambient.temperature=30 degC',
      { engine: [['intake:', 'ambient: { temperature: 30 degC }\nintake:']] },
    ],
    [
      'engine.ambient.temperature+=15 K',
      { engine: [['intake:', 'ambient: { temperature: 30 degC }\nintake:']] },
    ],
    [
      'engine.scavenging.displacement += 5 %',
      { engine: [['intake:', 'scavenging: { displacement: 0.75 }\nintake:']] },
    ],
    ['pipe.sections.diffuser 1.length=205 mm', { pipe: [['length: 200 mm', 'length: 205 mm']] }],
    ['pipe.sections."diffuser 1".length=205 mm', { pipe: [['length: 200 mm', 'length: 205 mm']] }],
    ['pipe.sections.header.diameter.1=42 mm', { pipe: [['41 mm]', '42 mm]']] }],
    [
      'pipe.wall.balance.emissivity=0.7',
      { pipe: [['name: A, broad', 'name: A, broad\nwall: { balance: { emissivity: 0.7 } }']] },
    ],
    ['run.cell=4 mm', { case: [['targetSpeed', 'cell: 4 mm\n  targetSpeed']] }],
    [
      'run.speeds=[8000 rpm, 11000 rpm]',
      { case: [['{ from: 7000 rpm, to: 13000 rpm, step: 250 rpm }', '[8000 rpm, 11000 rpm]']] },
    ],
    ['run.speeds.step=500 rpm', { case: [['step: 250 rpm', 'step: 500 rpm']] }],
  ])('%s', (set, edits) => {
    const [is, like] = [parts(loadCase(draft, { set: [set] })), parts(loadCase(edited(edits)))];
    // A moved roof keeps the head, where the edited file states another engine of that compression.
    const keepsHead = is.engine.compression.basis !== like.engine.compression.basis;
    expect(keepsHead).toBe(/windows.*(duration|roof|opens|chamfer)/.test(set));
    const { compression } = is.engine;
    expect(is).toEqual(keepsHead ? { ...like, engine: { ...like.engine, compression } } : like);
  });

  test('a moved exhaust roof keeps the metal of the head, and says what the compression became', () => {
    const drawn = loadCase(draft);
    const raised = loadCase(draft, { set: ['engine.exhaust.windows.main.duration=199 deg'] });
    expect(volumesOf(raised.engine).clearance).toBeCloseTo(volumesOf(drawn.engine).clearance, 15);
    const { trapped } = compressionRatios(raised.engine);
    expect(trapped).toBeLessThan(7.4);
    expect(raised.warnings.at(-1)).toContain(
      `compression from exhaust closing ${trapped.toFixed(2)}, before 7.50`,
    );
    // The map cuts the same metal, but for the window that it moves along.
    const lifted = withExhaustDuration(drawn, 199).engine;
    expect(raised.engine.compression.ratio).toBeCloseTo(lifted.compression.ratio, 12);
    // A compression that is asked for too is given.
    const both = ['engine.exhaust.windows.main.duration=199 deg', 'engine.compression.trapped=7.5'];
    expect(loadCase(draft, { set: both }).engine.compression).toEqual({ ratio: 7.5, basis: 'trapped' });
  });

  test('several work one after another, and the last wins', () => {
    const { engine } = loadCase(draft, {
      set: ['engine.bore=55 mm', 'engine.bore+=1 mm', 'engine.rod=120 mm', 'engine.rod=121 mm'],
    });
    expect([engine.bore, engine.rod]).toEqual([expect.closeTo(0.056, 12), 0.121]);
  });

  test('another pipe file, from the folder the command runs in', () => {
    const other = loadCase(draft, {
      set: [`pipe=${join(DRAFTS, 'saltmarsh-125/pipe-b.yaml')}`, 'pipe.sections.belly.length=110 mm'],
    });
    expect(other.pipe.name).toBe('B, peaky');
    expect(other.pipe.sections.find((section) => section.role === 'belly')!.length).toBe(0.11);
  });

  test('what was set is no longer assumed', () => {
    const set = loadCase(draft, {
      set: ['engine.fuel.equivalenceRatio=1.2', 'engine.scavenging.shortCircuit+=0.01'],
    });
    expect(set.assumed.map((one) => one.path)).not.toContain('engine.fuel.equivalenceRatio');
    expect(set.inputs.find((one) => one.path === 'engine.scavenging.shortCircuit')).toEqual({
      path: 'engine.scavenging.shortCircuit',
      value: '0.05 + 0.01',
      assumed: false,
    });
  });

  test('an opened file is not changed by what is made of it', () => {
    const opened = openFile(draft);
    const before = caseOf(opened, []);
    caseOf(opened, ['engine.bore=60 mm', 'pipe.sections.0.length=1 mm']);
    expect(caseOf(opened, [])).toEqual(before);
  });

  test('an opened case keeps its engine as it was when first read', () => {
    const opened = openFile(edited({}));
    const before = caseOf(opened, []);
    edited({ engine: [['bore: 54 mm', 'bore: 60 mm']] });
    expect(caseOf(opened, []).engine).toEqual(before.engine);
    expect(loadCase(opened.file).engine.bore).toBe(0.06);
  });

  test('a speed range from the command line may leave the target out, with a warning', () => {
    const loaded = loadCase(draft, { set: ['run.speeds={from: 7000 rpm, to: 8000 rpm, step: 500 rpm}'] });
    expect(loaded.warnings).toEqual([
      'Mind that the target of 11000 rpm is outside the sweep, 7000 to 8000 rpm.',
    ]);
  });

  test('pulse files too', () => {
    const shock = join(CASES, 'pulse/shock-tube.yaml');
    const pulse = loadPulse(shock, {
      set: ['sections.high.pressure+=1 bar', 'rightEnd.open.endCorrection=0', 'cell=1 mm'],
    });
    expect(pulse).toMatchObject({ cell: 0.001, rightEnd: { kind: 'open', endCorrection: 0 } });
    expect(pulse.sections[0]!.pressure).toBe(3e5);
  });
});

describe('an override is checked like the file', () => {
  test('its errors point into the argument', () => {
    expect(refused('engine.exhaust.windows.main.width=54 mn')).toBe(
      [
        '--set:1:35: engine.exhaust.windows.main.width: "54 mn": unknown unit "mn"; a length takes mm, cm, m, in or um',
        '  1 | engine.exhaust.windows.main.width=54 mn',
        '    |                                   ^^^^^',
        '  did you mean "54 mm"?',
      ].join('\n'),
    );
    expect(refused('engine.exhuast.windows.0.width=4 mm')).toContain(
      ['  1 | engine.exhuast.windows.0.width=4 mm', '    |        ^^^^^^^', '  did you mean "exhaust"?'].join(
        '\n',
      ),
    );
  });

  test.each([
    [
      'engine.exhaust.windows.mian.width=1 mm',
      '--set:1:24: no item "mian" in this list; it has 2 (from 0), named main, side',
    ],
    [
      'engine.exhaust.windows.7.width=1 mm',
      '--set:1:24: no item "7" in this list; it has 2 (from 0), named main, side',
    ],
    [
      'engine.exhaust.windows.main.roof += 1 mm',
      'engine.exhaust.windows.main.roof: cannot be raised or lowered: the file states duration',
    ],
    ['engine.exhaust.windows.main.around.x=1', 'engine.exhaust.windows.main.around: found a group of keys'],
    ['engine.exhaust.windows.side.around += 5 deg', 'there is nothing to change: the file does not state it'],
    ['engine.exhaust.windows += 5 deg', 'found a change where a list is due'],
    ['engine.bore += 5', '"5" has no unit; a length takes'],
    ['engine.bore += 5 deg', '"5 deg" is an angle; a length takes'],
    ['engine.bore -= 60 mm', 'engine.bore: the changed value is out of range'],
    ['engine.rod=20 mm', '--set:1:12: engine.rod: a rod of 20 mm is not longer than half the stroke'],
    ['run.speeds=[1000 rpm', 'a bracket is not closed'],
    ['engine=5', 'engine: found a number where an engine is due'],
    ['engine', 'an override is written path=value'],
    [
      'bore=50 mm',
      '--set:1:1: unknown key "bore"\n  1 | bore=50 mm\n    | ^^^^\n  did you mean "engine.bore"?',
    ],
    ['pipe.wall=given', '--set:1:11: pipe.wall: "given" alone says too little: it needs a temperature'],
    ['engine.bore', 'an override is written path=value'],
    ['engine.bore=', 'an override is written path=value'],
    ['=5 mm', 'an override is written path=value'],
    ['engine..bore=5 mm', 'an override is written path=value'],
    ['', 'an override is written path=value'],
  ])('%s', (set, message) => {
    expect(refused(set)).toContain(message);
  });

  test('all wrong overrides are told at once', () => {
    expect(refused('engine.bore=5', 'engine.rod=5', 'nonsense')).toMatch(/3 problems$/);
  });
});
