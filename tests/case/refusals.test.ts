/** Ring: identity. Engines, pipes and runs that cannot be are refused with the reason. */

import { describe, expect, test } from 'vitest';
import { loadCase, loadEngine } from '../../src/case/load.ts';
import { demo, type Edit, edited, file, problems } from './files.ts';

const ofEngine = (...edits: readonly Edit[]): string => problems(() => loadCase(edited({ engine: edits })));
const ofPipe = (...edits: readonly Edit[]): string => problems(() => loadCase(edited({ pipe: edits })));
const ofCase = (...edits: readonly Edit[]): string => problems(() => loadCase(edited({ case: edits })));

describe('engines that cannot be', () => {
  test.each<[string, Edit, string]>([
    [
      'short rod',
      ['rod: 115 mm', 'rod: 27 mm'],
      'engine.yaml:6:6: engine.rod: a rod of 27 mm is not longer than half the stroke (27.25 mm): the crank could not turn',
    ],
    [
      'offset',
      ['rod: 115 mm', 'rod: 115 mm\npinOffset: 20 mm'],
      'engine.pinOffset: an offset of 20 mm is more than a quarter of the stroke of 54.5 mm',
    ],
    [
      'compression',
      ['trapped: 7.5', 'full: 0.9'],
      'engine.yaml:7:22: engine.compression.full: "0.9" is out of range; it takes values above 1 and up to 40',
    ],
    [
      'duration of a turn',
      ['duration: 195 deg', 'duration: 360 deg'],
      'engine.exhaust.windows.main.duration: a port open for 360 deg is none: the roof would stand above the deck and never be covered',
    ],
    [
      'opening before top',
      ['duration: 195 deg', 'opens: -5 deg'],
      'engine.exhaust.windows.main.opens: a port that opens at -5 deg is none: the roof would stand above the deck and never be covered',
    ],
    [
      'roof above deck',
      ['duration: 195 deg', 'roof: -1 mm'],
      'engine.exhaust.windows.main.roof: the roof would stand 1 mm above the crown at top dead centre: the port would never be covered',
    ],
    [
      'roof below stroke',
      ['duration: 195 deg', 'roof: 60 mm'],
      'engine.exhaust.windows.main.roof: the roof would stand 60 mm below the crown at top dead centre, the stroke is 54.5 mm: the port would never open',
    ],
    [
      'two roofs',
      ['duration: 195 deg', 'duration: 195 deg\n      opens: 82 deg'],
      'engine.exhaust.windows.main: duration and opens say the same thing twice',
    ],
    [
      'no roof',
      ['      duration: 195 deg\n', ''],
      'engine.exhaust.windows.main: a port window needs one of duration, opens, roof',
    ],
    [
      'tall window',
      ['height: 12 mm', 'height: 60 mm'],
      'engine.exhaust.windows.side.height: a window 60 mm tall is taller than the stroke of 54.5 mm',
    ],
    [
      'wide window',
      ['width: 41 mm', 'width: 54 mm'],
      'engine.exhaust.windows.main.width: a window 54 mm wide straight across does not fit a bore of 54 mm',
    ],
    [
      'corners',
      ['corners: { top: 8 mm,', 'corners: { top: 22 mm,'],
      'engine.exhaust.windows.main.corners: a corner radius is more than half the width of the window',
    ],
    [
      'corners and height',
      ['height: 12 mm', 'height: 5 mm'],
      'engine.exhaust.windows.side.corners: arch and corner radii need more than the height of the window (5 mm)',
    ],
    [
      'windows around',
      ['name: front, count: 2', 'name: front, count: 8'],
      'engine.transfers.windows: the windows are',
    ],
    [
      'transfers first',
      ['width: 24 mm, duration: 132 deg', 'width: 24 mm, duration: 196 deg'],
      'engine.transfers.windows.boost.duration: this window opens at 82.0 deg, not after the exhaust, which opens at 82.5 deg',
    ],
    [
      'both crankcases',
      ['crankcase: { compression: 1.35 }', 'crankcase: { compression: 1.35, volume: 300 cc }'],
      'engine.crankcase: compression and volume say the same thing twice',
    ],
    [
      'cold wall',
      ['intake:', 'cylinderHeat: { wallTemperature: -300 degC }\nintake:'],
      'engine.cylinderHeat.wallTemperature: "-300 degC" is out of range; it takes values above 0 K and below 2000 K',
    ],
    [
      'scavenging',
      ['intake:', 'scavenging: { displacement: 0.7, shortCircuit: 40 % }\nintake:'],
      'engine.scavenging: displacement and shortCircuit are shares of one stream: together at most 1',
    ],
    [
      'empty windows',
      ['transfers:\n  windows:', 'transfers:\n  windows: []\n  old:'],
      'engine.transfers.windows: the list has 0 items; it takes 1 to 8',
    ],
    [
      'intake',
      ['  reed:', '  read:'],
      'engine.intake: found "read"; it takes an intake: one of reed, pistonPort, disc',
    ],
    [
      'tract',
      ['length: 85 mm, diameter: 38 mm', 'length: 85 mm, diameter: 36 mm'],
      'engine.intake.reed.tract.carburettor.diameter: the diameter jumps from 38 mm to 36 mm here',
    ],
    [
      'not a whole number',
      ['count: 6', 'count: 6.5'],
      'engine.intake.reed.petals.count: found "6.5"; it takes a whole number from 1 to 64',
    ],
    [
      'no group',
      ['passage: { length: 68 mm, exitDiameter: 38 mm }', 'passage: 68 mm'],
      'engine.passage: found a text where the exhaust passage is due: keys length, entryArea',
    ],
  ])('%s', (_, edit, message) => {
    expect(ofEngine(edit)).toContain(message);
  });

  test('an engine alone is refused for the same reasons', () => {
    expect(
      problems(() => loadEngine(file('e.yaml', demo('engine.yaml').replace('rod: 115 mm', 'rod: 20 mm')))),
    ).toMatch(/^e\.yaml:6:6: rod: a rod of 20 mm/);
  });
});

describe('pipes that cannot be', () => {
  test.each<[string, Edit, string]>([
    [
      'jump',
      ['diameter: [38 mm, 41 mm]', 'diameter: 38 mm } \n  - { name: header 2, length: 5 mm, diameter: 44 mm'],
      'pipe-a.yaml:6:47: pipe.sections.header 2.diameter: the diameter jumps from 38 mm to 44 mm here',
    ],
    [
      'flange',
      ['diameter: [38 mm, 41 mm]', 'diameter: [40 mm, 41 mm]'],
      'pipe.sections.header.diameter: the passage ends with the area of a 38 mm bore, the pipe begins with 40 mm',
    ],
    [
      'zero length',
      ['length: 210 mm', 'length: 0 mm'],
      'pipe.sections.baffle.length: "0 mm" is out of range',
    ],
    [
      'order',
      ['name: diffuser 2', 'name: header 2'],
      'pipe.sections.header 2.name: a header cannot follow a diffuser',
    ],
    [
      'no role',
      ['name: belly', 'name: middle'],
      'pipe.sections.middle: has no role, and its name begins with none',
    ],
    [
      'narrowing diffuser',
      ['to: 66 mm', 'to: 40 mm'],
      'pipe.sections.diffuser 1: a diffuser has to widen, this one goes from 41 mm to 40 mm',
    ],
    [
      'widening baffle',
      ['to: 23 mm', 'to: 123 mm'],
      'pipe.sections.baffle: a baffle has to narrow, this one goes from 102 mm to 123 mm',
    ],
    [
      'no sections',
      ['sections:                     # from the flange on', 'sections: []\nold:'],
      'pipe.sections: the list has 0 items; it takes 1 to 40',
    ],
    [
      'first of all',
      ['diameter: [38 mm, 41 mm]', 'to: 41 mm'],
      'pipe.sections.header.to: the first section has none before it to go on from',
    ],
    [
      'a comma forgotten',
      ['diameter: [38 mm, 41 mm]', 'diameter: [38 mm 41 mm]'],
      'the list has 1 item; it takes 2\n  5 |   - { name: header, length: 280 mm, diameter: [38 mm 41 mm] }',
    ],
    [
      'a comma forgotten, the hint',
      ['[38 mm, 41 mm]', '[38 mm 41 mm]'],
      'put commas between the items: [38 mm, 41 mm]',
    ],
    [
      'a capillary',
      ['[38 mm, 41 mm]', '[38 mm, 0.5 mm]'],
      '"0.5 mm" is out of range; it takes values from 1 mm',
    ],
    [
      'one name twice',
      ['name: belly', 'name: header'],
      'the name "header" is taken by another section, at pipe-a.yaml:',
    ],
    [
      'a wall of no temperature',
      ['name: A, broad', 'wall: given'],
      'pipe.wall: "given" alone says too little: it needs a temperature',
    ],
    [
      'three diameters',
      ['diameter: [38 mm, 41 mm]', 'diameter: [38 mm, 41 mm, 42 mm]'],
      'pipe.sections.header.diameter: the list has 3 items; it takes 2',
    ],
    [
      'wall beyond the end',
      [
        'name: A, broad',
        'wall: { given: [ { at: 0 mm, temperature: 700 K }, { at: 2 m, temperature: 500 K } ] }',
      ],
      'pipe.wall.given.1.at: lies beyond the end of the pipe at 1160 mm',
    ],
    [
      'wall backwards',
      [
        'name: A, broad',
        'wall: { given: [ { at: 50 mm, temperature: 700 K }, { at: 5 mm, temperature: 500 K } ] }',
      ],
      'pipe.wall.given.1.at: positions have to grow along the pipe',
    ],
    [
      'wall of both kinds',
      ['name: A, broad', 'wall: { given: 500 K, balance: {} }'],
      'pipe.wall: found several keys; it takes a wall temperature: one of given, balance',
    ],
  ])('%s', (_, edit, message) => {
    expect(ofPipe(edit)).toContain(message);
  });

  test('a jump that is meant is taken; a pipe without a baffle is, with a warning', () => {
    const stepped = loadCase(
      edited({ pipe: [['diameter: [38 mm, 41 mm]', 'diameter: [40 mm, 41 mm], step: true']] }),
    );
    expect(stepped.pipe.sections[0]).toMatchObject({ step: true, diameter: [0.04, 0.041] });
    const open = loadCase(edited({ pipe: [['name: baffle', 'name: stinger 0']] }));
    expect(open.warnings).toEqual(['The pipe has no baffle: nothing sends a plug-back wave.']);
  });
});

describe('runs that cannot be', () => {
  test.each<[string, Edit, string]>([
    [
      'descending list',
      ['{ from: 7000 rpm, to: 13000 rpm, step: 250 rpm }', '[ 9000 rpm, 11000 rpm, 10000 rpm ]'],
      'draft-a.yaml:8:34: run.speeds.2: speeds have to ascend',
    ],
    [
      'descending range',
      ['from: 7000 rpm', 'from: 14000 rpm'],
      'run.speeds.to: speeds have to ascend: the last is below the first',
    ],
    [
      'no step',
      ['step: 250 rpm', 'step: 0 rpm'],
      'run.speeds.step: "0 rpm" is out of range; it takes values above 0 rpm',
    ],
    [
      'target',
      ['targetSpeed: 11000 rpm', 'targetSpeed: 15000 rpm'],
      'draft-a.yaml:9:16: run.targetSpeed: the target of 15000 rpm is outside the sweep, 7000 to 13000 rpm',
    ],
    [
      'unit',
      ['11000 rpm', '183 Hz x'],
      'run.targetSpeed: "183 Hz x": unknown unit "Hz x"; a shaft speed takes rpm or Hz',
    ],
    [
      'setting',
      ['targetSpeed: 11000 rpm', 'scheme: conservativ'],
      'run.scheme: found "conservativ"; it takes one of conservative, finite-volume, mesh',
    ],
    [
      'engine',
      ['engine: engine.yaml', 'engine: 5'],
      'draft-a.yaml:5:9: engine: found a number where an engine is due',
    ],
    ['no engine', ['engine: engine.yaml\n', ''], 'engine: is missing'],
  ])('%s', (_, edit, message) => {
    expect(ofCase(edit)).toContain(message);
  });
});
