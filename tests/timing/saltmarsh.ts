/** The Saltmarsh club's 125 cc sprint single, invented for these tests, as a resolved case. */
import type { Case } from '../../src/model/case.ts';
import type { Engine } from '../../src/model/engine.ts';
import type { Pipe } from '../../src/model/pipe.ts';
import type { PortWindow } from '../../src/model/port-window.ts';
import type { Section } from '../../src/model/section.ts';

const MM = 1e-3;
const discharge = { outFull: 0.8, outCrack: 0.7, inFull: 0.75, inCrack: 0.65 };

export const exhaustWindow: PortWindow = {
  name: 'exhaust',
  count: 1,
  width: 37.5 * MM,
  widthMeasure: 'chord',
  roof: { by: 'duration', durationDeg: 194 },
  height: null,
  cornerTop: 9 * MM,
  cornerBottom: 10 * MM,
  roofArch: 2.5 * MM,
  chamferHeight: 0,
  chamferDepth: 0,
  upAngleDeg: -25,
  aroundDeg: 0,
};

export const transferWindow: PortWindow = {
  name: 'main transfers',
  count: 2,
  width: 22 * MM,
  widthMeasure: 'arc',
  roof: { by: 'duration', durationDeg: 130 },
  height: null,
  cornerTop: 2 * MM,
  cornerBottom: 2 * MM,
  roofArch: 0,
  chamferHeight: 0,
  chamferDepth: 0,
  upAngleDeg: 10,
  aroundDeg: 79,
};

export const engine: Engine = {
  name: 'Saltmarsh 125',
  bore: 54 * MM,
  stroke: 54.5 * MM,
  rod: 110 * MM,
  pinOffset: 0,
  compression: { ratio: 14.5, basis: 'full' },
  crownBelowDeck: 0,
  barrelLift: 0,
  exhaust: { windows: [exhaustWindow], discharge },
  transfers: {
    windows: [
      transferWindow,
      { ...transferWindow, name: 'secondary transfers', width: 16 * MM, aroundDeg: 123, upAngleDeg: 15 },
      { ...transferWindow, name: 'boost', count: 1, width: 15 * MM, aroundDeg: 180, upAngleDeg: 50 },
    ],
    discharge,
    passage: {
      length: 70 * MM,
      area: 16e-4,
      entryArea: 20e-4,
      exitArea: 12.8e-4,
      as: 'lumped',
      inertia: false,
    },
  },
  passage: { length: 65 * MM, entryArea: 8.8e-4, exitArea: 6.5e-4, wallTemperature: 470 },
  crankcase: { volume: 330e-6, wallTemperature: 360 },
  intake: {
    kind: 'reed',
    tract: [tract('carburettor', 90, 38, 38)],
    petals: {
      count: 6,
      width: 21 * MM,
      length: 38 * MM,
      thickness: 0.42 * MM,
      density: 1550,
      modulus: 2.1e10,
      stop: 8 * MM,
      damping: 0.05,
      openSides: 1,
    },
    cageArea: 14e-4,
    discharge: 0.7,
  },
  combustion: {
    start: [{ rpm: 0, deg: -13 }],
    durationDeg: 52,
    residualAtDuration: null,
    wiebeEfficiency: 5,
    wiebeExponent: 2,
    completeness: 0.9,
  },
  head: null,
  fuel: { hydrogenCarbonRatio: 1.85, equivalenceRatio: 1.15, lowerHeatingValue: 43e6 },
  scavenging: { by: 'threeWay', displacement: 0.3, shortCircuit: 0.1 },
  cylinderHeat: { model: 'annand', coefficient: 0.4, wallTemperature: 480 },
  friction: { constant: 0, perSpeed: 150 },
  ambient: { pressure: 101_325, temperature: 293.15 },
};

function tract(name: string, length: number, left: number, right: number): Section {
  return { name, role: 'tract', length: length * MM, diameter: [left * MM, right * MM], step: false };
}

export function section(
  name: string,
  role: Section['role'],
  length: number,
  left: number,
  right: number,
): Section {
  return { name, role, length: length * MM, diameter: [left * MM, right * MM], step: false };
}

export const pipe: Pipe = {
  name: 'draft A',
  sections: [
    section('header', 'header', 240, 33.5, 41),
    section('diffuser 1', 'diffuser', 170, 41, 62),
    section('diffuser 2', 'diffuser', 170, 62, 92),
    section('belly', 'belly', 95, 92, 92),
    section('baffle', 'baffle', 200, 92, 20.8),
    section('stinger', 'stinger', 250, 20.8, 20.8),
  ],
  bends: [],
  sheet: null,
  silencer: null,
  wall: { by: 'given', at: [{ position: 0, temperature: 620 }] },
  roughness: 0.03 * MM,
  coneLoss: 1,
  bendLoss: 1,
  endCorrection: 0.6,
};

export const saltmarsh: Case = {
  name: 'Saltmarsh 125, draft A',
  note: 'Invented example: no such engine exists.',
  engine,
  pipe,
  run: {
    speeds: [8000, 9000, 10_000, 11_000, 12_000],
    cell: 5 * MM,
    courant: 0.95,
    scheme: 'conservative',
    kernel: 'auto',
    maxCycles: 120,
    friction: true,
    mixing: 0,
    wallHeat: 'pulsating',
    wallHeatFactor: 1,
    targetSpeed: 11_000,
  },
  assumed: [
    {
      path: 'pipe.roughness',
      value: '0.03 mm',
      reason: 'Rolled sheet with welds; common practice, no source.',
      sort: 'quantity',
    },
  ],
  inputs: [],
  warnings: [],
};
