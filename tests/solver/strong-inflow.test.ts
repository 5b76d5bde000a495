/**
 * Rings: conservation, and exact solution. A vessel at 10 bar let go into a duct at 0.2 bar: more than the duct's pressure can
 * hold back. The stream on the face is then sonic, at the share of the vessel's critical pressure that the opening is of
 * the duct: p = phi p_c (2/(gamma+1))^(gamma/(gamma-1)) (one-dimensional choking, NACA Report 1135 (1953); derived here).
 */

import { describe, expect, test } from 'vitest';
import {
  ANSWER,
  Duct,
  fixedOpening,
  GasModel,
  meshTapers,
  Network,
  newFlow,
  rigidDrive,
  Volume,
} from '../../solver/index.ts';

const VESSEL = 10e5;
const CRITICAL = (2 / 2.4) ** 3.5;

function rig(share: number, pressure: number): { network: Network; duct: Duct } {
  const gas = GasModel.perfectGas(1.4, 287);
  const duct = new Duct('pipe', gas, meshTapers([{ length: 1, diameter: [0.04, 0.04] }], 100));
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
