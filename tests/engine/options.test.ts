/**
 * Rings: conservation, and identity. Everything that a case can ask of an engine runs, settles and keeps its books; the wall
 * temperature found by the program balances its heat as an independent solution says.
 */

import { describe, expect, test } from 'vitest';
import { balancedWall } from '../../src/engine/parts/wall.ts';
import { wallTemperature } from '../exact/wall-balance.ts';
import { draft, rowAt } from './demo.ts';

const options: readonly (readonly [string, readonly string[]])[] = [
  ['a silencer behind the stinger', ['pipe.silencer={ volume: 800 cc, outletDiameter: 27 mm }']],
  ['a wall in balance with the outside', ['pipe.wall={ balance: {} }']],
  ["Colburn's analogy", ['run.wallHeat=colburn']],
  ["Woschni's cylinder heat", ['engine.cylinderHeat.model=woschni', 'engine.cylinderHeat.coefficient=1']],
  [
    'a piston-ported intake',
    [
      'engine.intake={ pistonPort: { tract: [ { name: tract, length: 200 mm, diameter: 36 mm } ], ' +
        'duration: 160 deg, width: 36 mm, height: 26 mm } }',
    ],
  ],
  [
    'a disc',
    [
      'engine.intake={ disc: { tract: [ { name: tract, length: 120 mm, diameter: 36 mm } ], ' +
        'opens: -140 deg, closes: 70 deg, area: 900 mm2 } }',
    ],
  ],
  ['a declared step into the belly', ['pipe.sections.belly.diameter=76 mm', 'pipe.sections.belly.step=true']],
  ['quasi-steady transfers', ['engine.transfers.passage.inertia=false']],
];

describe('the demo at 9 500 rpm with', () => {
  const base = rowAt(draft('a', ['run.cell=12 mm']), 9500);

  test.each(options)('%s', (_, set) => {
    const row = rowAt(draft('a', ['run.cell=12 mm', ...set]), 9500);
    expect(row.settled).toBe(true);
    expect(row.mass_balance_error).toBeLessThan(1e-9);
    expect(row.energy_balance_error).toBeLessThan(1e-9);
    // The option does something, and nothing absurd.
    expect(row.torque_nm).not.toBe(base.torque_nm);
    expect(Math.abs(row.torque_nm / base.torque_nm - 1)).toBeLessThan(0.2);
    expect(Math.abs(row.plugback_centroid_deg - base.plugback_centroid_deg)).toBeLessThan(12);
  });
});

test('a wall between 900 K gas and 300 K air', () => {
  const outside = { coefficient: 60, emissivity: 0.8, ambient: 300 };
  const found = balancedWall(300, 900, outside);
  const exact = wallTemperature({
    gasTemperature: 900,
    gasCoefficient: 300,
    outsideTemperature: 300,
    outsideCoefficient: 60,
    emissivity: 0.8,
  });
  expect(found).toBeCloseTo(exact, 6);
});
