/**
 * Rings: conservation, and exact solution. A vessel at 10 bar let go into a duct at 0.2 bar: more than the duct's pressure can
 * hold back. The stream on the face is then sonic, at the share of the vessel's critical pressure that the opening is of
 * the duct: p = phi p_c (2/(gamma+1))^(gamma/(gamma-1)) (one-dimensional choking, NACA Report 1135 (1953); derived here).
 */

import { describe, expect, test } from 'vitest';
import {
  ANSWER,
  ConservativeDuct,
  fixedOpening,
  GasModel,
  meshTapers,
  Network,
  newFlow,
  rigidDrive,
  stepBetween,
  Volume,
} from '../../solver/index.ts';

const VESSEL = 10e5;
const CRITICAL = (2 / 2.4) ** 3.5;

function rig(share: number, pressure: number): { network: Network; duct: ConservativeDuct } {
  const gas = GasModel.perfectGas(1.4, 287);
  const duct = new ConservativeDuct('pipe', gas, meshTapers([{ length: 1, diameter: [0.04, 0.04] }], 100));
  for (let i = 0; i < 100; i++) duct.setCell(i, pressure, 300);
  const vessel = new Volume('vessel', gas, rigidDrive(1e-3));
  vessel.fill(0, VESSEL, 600, 0);
  const network = new Network(
    [duct],
    [vessel],
    [
      {
        kind: 'port',
        end: duct.left,
        volume: vessel,
        role: 'plain',
        opening: fixedOpening(share * duct.left.area),
        flow: newFlow(),
      },
      { kind: 'closed', end: duct.right },
    ],
    0.8,
  );
  return { network, duct };
}

describe.each([0.1, 0.32, 0.7, 1])('an opening of %f of the duct', (share) => {
  test('keeps mass and energy while a shock fills the duct', () => {
    const { network } = rig(share, 2e4);
    const [mass, energy] = [network.mass(), network.energyContent()];
    network.marchTo(2e-3);
    expect(Math.abs(network.mass() / mass - 1)).toBeLessThan(1e-12);
    expect(Math.abs(network.energyContent() / energy - 1)).toBeLessThan(1e-12);
  });

  test('is sonic on the face at first, where the duct is all but empty', () => {
    const { network, duct } = rig(share, 50);
    network.step(1e-9);
    const out = duct.left.answer;
    const pressure = out[ANSWER.pressure]!;
    const sound = Math.sqrt((1.4 * pressure) / out[ANSWER.density]!);
    expect(-out[ANSWER.velocity]! / sound).toBeCloseTo(1, 6);
    expect(pressure / (share * CRITICAL * VESSEL)).toBeCloseTo(1, 4);
  });
});

describe.each([
  ['wider', 0.03, 0.04],
  ['narrower', 0.04, 0.02],
])('a choked step into a %s duct that is all but empty', (_, from, to) => {
  /** A full pipe of 10 bar and, beyond the step, an empty one. */
  function steps(pressure: number): { network: Network; second: ConservativeDuct } {
    const gas = GasModel.perfectGas(1.4, 287);
    const pipe = (diameter: number) =>
      new ConservativeDuct('pipe', gas, meshTapers([{ length: 1, diameter: [diameter, diameter] }], 100));
    const [first, second] = [pipe(from), pipe(to)];
    for (let i = 0; i < 100; i++) {
      first.setCell(i, VESSEL, 600);
      second.setCell(i, pressure, 300);
    }
    const links = [
      { kind: 'closed', end: first.left },
      { kind: 'closed', end: second.right },
      stepBetween(first.right, second.left),
    ] as const;
    return { network: new Network([first, second], [], links, 0.8), second };
  }

  test('is at most sonic on the face, and keeps mass and energy', () => {
    const { network, second } = steps(2e4);
    const [mass, energy] = [network.mass(), network.energyContent()];
    let fastest = 0;
    while (network.time < 2e-3) {
      network.step(2e-3 - network.time);
      const out = second.left.answer;
      const sound = Math.sqrt((1.4 * out[ANSWER.pressure]!) / out[ANSWER.density]!);
      fastest = Math.max(fastest, -out[ANSWER.velocity]! / sound);
    }
    expect(fastest).toBeLessThanOrEqual(1 + 1e-9);
    expect(fastest).toBeGreaterThan(0.9);
    expect(Math.abs(network.mass() / mass - 1)).toBeLessThan(1e-12);
    expect(Math.abs(network.energyContent() / energy - 1)).toBeLessThan(1e-12);
    expect(network.ledger.unconverged).toBe(0);
  });
});
