/**
 * Cells that leave the range in which the gas is known. Ring: conservation (the march goes on and keeps its books) and
 * identity (what one part of the solver calls unphysical, the others do too).
 */

import { describe, expect, test } from 'vitest';
import { ConservativeDuct, GasModel, meshTapers, Network, TextbookDuct } from '../../solver/index.ts';
import { isPhysicalCell } from '../../solver/scheme/conservative/physical-cells.ts';

const CELLS = 40;
const TUBE = meshTapers([{ length: 1, diameter: [0.04, 0.04] }], CELLS);

/** A closed tube of air at 1 bar whose halves flee from one another. */
function fleeing(speed: number): { duct: ConservativeDuct; network: Network } {
  const duct = new ConservativeDuct('tube', GasModel.air(), TUBE);
  for (let i = 0; i < CELLS; i++) duct.setCell(i, 1e5, 300, i < CELLS / 2 ? -speed : speed);
  const links = [
    { kind: 'closed', end: duct.left },
    { kind: 'closed', end: duct.right },
  ] as const;
  return { duct, network: new Network([duct], [], links, 0.8) };
}

describe('gas that expands to about 100 K, the cold end of the table', () => {
  // Behind two expansions from 300 K the gas is at 300 (1 - 0.2 u/a)^2 K, gamma 1.4, a = 347 m/s: 128 K at 600 m/s, 107 K at
  // 700 m/s (Riemann invariants, e.g. Toro 2009, chapter 4). The step overshoots that to below 100 K.
  test.each([600, 700])('at %s m/s: steps are rejected, then taken, and nothing is lost', (speed) => {
    const { duct, network } = fleeing(speed);
    const before = { mass: network.mass(), energy: network.energyContent() };
    network.marchTo(3e-4);
    expect(network.ledger.rejected).toBeGreaterThan(0);
    expect(network.ledger.rejected).toBeLessThan(20);
    expect(network.mass() / before.mass).toBeCloseTo(1, 12);
    expect(network.energyContent() / before.energy).toBeCloseTo(1, 12);
    duct.decode();
    const { T, offset } = duct.fields();
    const middle = T[CELLS / 2 + offset]!;
    expect(middle).toBeGreaterThan(100);
    expect(middle).toBeLessThan(180);
  });
});

describe.each([
  [90, 'below the table'],
  [4600, 'above it'],
])('a cell of %s K, %s', (temperature) => {
  test('is refused, held flat with its neighbours, and named with place and temperature', () => {
    const duct = new ConservativeDuct('tube', GasModel.charge(1.85, 1.1), TUBE);
    for (let i = 0; i < CELLS; i++) duct.setCell(i, 1e5, i === 20 ? temperature : 300, 0, 0.3);
    expect(duct.decode()).toBeNaN();
    expect(Array.from({ length: CELLS }, (_, i) => isPhysicalCell(duct, i)).indexOf(false)).toBe(20);
    duct.soothe();
    expect(duct.calmed).toBe(true);
    expect(duct.calm[20 + 2]).toBe(1);
    expect(duct.calm[10 + 2]).toBe(0);
    const network = new Network([duct], [], [], 0.8);
    expect(() => network.step(1)).toThrow(/"tube" at 513 mm: .*pressure .*temperature (89|90|4599|4600)/);
  });

  test('is refused and named by the mesh method too', () => {
    const duct = new TextbookDuct('tube', GasModel.charge(1.85, 1.1), TUBE);
    for (let i = 0; i < CELLS; i++) duct.setCell(i, 1e5, temperature, 0, 0.3);
    expect(duct.decode()).toBeNaN();
    expect(duct.complaint()).toMatch(/"tube" at 0 mm: .*temperature (89|90|4599|4600)/);
  });
});
