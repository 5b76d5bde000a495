/** Ring: identity. Every key that a pulse file may hold, and what is refused. */

import { describe, expect, test } from 'vitest';
import { loadPulse } from '../../src/case/load.ts';
import { file, problems, replaced } from './files.ts';

const TEXT = `kind: pulse
name: burst into a cone
gas: { gamma: 1.4, gasConstant: 287 J/(kg K) }
ambient: { pressure: 1 bar, temperature: 300 K }
sections:
  - { name: driver, length: 60 mm, diameter: 40 mm, pressure: 2.5 bar, temperature: 900 K }
  - { name: cone, length: 250 mm, diameter: [40 mm, 100 mm], pressure: 1 bar, temperature: 300 K, velocity: 0 m/s }
leftEnd: closed
rightEnd: open
walls: { friction: none, heat: none }
probes: [ { name: p1, at: 50 mm } ]
until: 6 ms
sampleEvery: 5 us
profilesAt: [ 2 ms, 4 ms ]
cell: 2 mm
scheme: conservative
`;

const withEdit = (from: string, to: string) => loadPulse(file('p.yaml', replaced(TEXT, [[from, to]])));

test('the whole file', () => {
  expect(loadPulse(file('p.yaml', TEXT))).toEqual({
    name: 'burst into a cone',
    gas: { kind: 'perfect', gamma: 1.4, gasConstant: 287 },
    ambient: { pressure: 1e5, temperature: 300 },
    sections: [
      {
        name: 'driver',
        length: 0.06,
        diameter: [0.04, 0.04],
        step: false,
        pressure: 2.5e5,
        temperature: 900,
        velocity: 0,
      },
      {
        name: 'cone',
        length: 0.25,
        diameter: [0.04, 0.1],
        step: false,
        pressure: 1e5,
        temperature: 300,
        velocity: 0,
      },
    ],
    leftEnd: { kind: 'closed' },
    rightEnd: { kind: 'open', endCorrection: 0.6 },
    friction: false,
    wallHeat: 'none',
    wallTemperature: 300,
    roughness: 45e-6,
    mixing: 0,
    probes: [{ name: 'p1', at: 0.05 }],
    until: 6e-3,
    sampleEvery: 5e-6,
    profilesAt: [2e-3, 4e-3],
    cell: 2e-3,
    courant: 0.8,
    scheme: 'conservative',
    kernel: 'auto',
  });
});

test('the shortest file', () => {
  const pulse = loadPulse(
    file('short.yaml', 'kind: pulse\nsections: [ { length: 1 m, diameter: 40 mm } ]\nuntil: 1 ms\n'),
  );
  expect(pulse).toMatchObject({
    name: 'short',
    gas: { kind: 'air' },
    probes: [],
    profilesAt: [],
    cell: 2e-3,
  });
  expect(pulse.sections[0]).toMatchObject({ name: 'section 1', pressure: 101325, temperature: 288.15 });
});

describe('ends', () => {
  test.each([
    ['open', { kind: 'open', endCorrection: 0.6 }],
    ['{ open: {} }', { kind: 'open', endCorrection: 0.6 }],
    ['{ open: { endCorrection: 0 } }', { kind: 'open', endCorrection: 0 }],
    ['nonreflecting', { kind: 'nonreflecting' }],
    ['{ nozzle: { diameter: 20 mm } }', { kind: 'nozzle', diameter: 0.02 }],
    [
      '{ vessel: { volume: 500 cc, pressure: 2 bar, temperature: 300 K, opening: { diameter: 30 mm } } }',
      { kind: 'vessel', volume: 5e-4, pressure: 2e5, temperature: 300, openingDiameter: 0.03 },
    ],
    [
      '{ vessel: { volume: 500 cc, pressure: 2 bar, opening: { diameter: 30 mm } } }',
      { kind: 'vessel', volume: 5e-4, pressure: 2e5, temperature: 300, openingDiameter: 0.03 },
    ],
    [
      '{ incident: { shape: gaussian, amplitude: 100 Pa, at: 1 ms, width: 0.25 ms } }',
      { kind: 'incident', shape: 'gaussian', amplitude: 100, at: 1e-3, width: 0.25e-3 },
    ],
  ])('%s', (text, expected) => {
    expect(withEdit('leftEnd: closed', `leftEnd: ${text}`).leftEnd).toEqual(expected);
  });
});

test('gases, schemes, walls, steps', () => {
  expect(withEdit('gas: { gamma: 1.4, gasConstant: 287 J/(kg K) }', 'gas: exhaust').gas).toEqual({
    kind: 'exhaust',
  });
  expect(withEdit('scheme: conservative', 'scheme: mesh').scheme).toBe('mesh');
  expect(withEdit('scheme: conservative', 'scheme: finite-volume').scheme).toBe('finite-volume');
  const rough = withEdit(
    '{ friction: none, heat: none }',
    '{ friction: haaland, heat: colburn, temperature: 200 degC, roughness: 0.1 mm }',
  );
  expect(rough).toMatchObject({
    friction: true,
    wallHeat: 'colburn',
    wallTemperature: 473.15,
    roughness: 1e-4,
  });
  expect(withEdit('[40 mm, 100 mm]', '80 mm').sections[1]).toMatchObject({
    step: true,
    diameter: [0.08, 0.08],
  });
});

test.each([
  [
    'at: 50 mm',
    'at: 400 mm',
    'p.yaml:11:27: probes.p1.at: lies outside the duct, which goes from 0 mm to 310 mm',
  ],
  ['at: 50 mm', 'at: -1 mm', 'probes.p1.at: lies outside the duct'],
  [
    '{ name: p1, at: 50 mm }',
    '{ name: p1, at: 50 mm }, { name: p1, at: 60 mm }',
    'probes.1.name: the name "p1" is taken by another probe, at p.yaml:11:19',
  ],
  ['until: 6 ms', 'until: 0 ms', 'until: "0 ms" is out of range; it takes values above 0 ms'],
  ['until: 6 ms', 'until: -1 ms', 'until: "-1 ms" is out of range'],
  ['sampleEvery: 5 us', 'sampleEvery: 7 ms', 'sampleEvery: is longer than the whole run of 6 ms'],
  ['sampleEvery: 5 us', 'sampleEvery: 1e-9 ms', 'sampleEvery: gives more than two million samples'],
  ['4 ms ]', '7 ms ]', 'profilesAt.1: lies after the end of the run at 6 ms'],
  ['gamma: 1.4', 'gamma: 1', 'gas.gamma: "1" is out of range; it takes values above 1 and up to 4'],
  [
    '287 J/(kg K)',
    '287',
    'gas.gasConstant: "287" has no unit; a specific gas constant takes J/(kg K) or kJ/(kg K)',
  ],
  [
    'leftEnd: closed',
    'leftEnd: clozed',
    'leftEnd: found "clozed"; it takes an end: one of closed, open, nonreflecting, nozzle, vessel, incident',
  ],
  ['leftEnd: closed', 'leftEnd: nozzle', 'leftEnd.nozzle.diameter: is missing: Diameter of the nozzle.'],
  [
    'leftEnd: closed',
    'leftEnd: { closed: { x: 1 } }',
    'leftEnd.closed: found a group of keys where nothing is due',
  ],
  ['temperature: 900 K', 'temperature: 0 K', 'sections.driver.temperature: "0 K" is out of range'],
  ['pressure: 2.5 bar', 'pressure: 2.5', 'sections.driver.pressure: "2.5" has no unit'],
  ['cell: 2 mm', 'sell: 2 mm', 'unknown key "sell"\n  15 | sell: 2 mm\n     | ^^^^\n  did you mean "cell"?'],
])('%s -> %s is refused', (from, to, message) => {
  expect(problems(() => withEdit(from, to))).toContain(message);
});
