/** Shock tubes against the exact Riemann solution. Ring: exact solution. */

import { describe, expect, test } from 'vitest';
import { ConservativeDuct, FiniteVolumeDuct } from '../../solver/index.ts';
import { type GasState, sampleRiemann, solveRiemann } from '../../src/verify/exact/riemann.ts';
import { type DuctKind, runTube, type ShockTube, TORO } from './toro.ts';

const state = ([density, velocity, pressure]: ShockTube['left'], gamma = 1.4): GasState => ({
  density,
  velocity,
  pressure,
  gamma,
});

/** Mean absolute error of the density over the tube, and the values in the star region's middle. */
function compare(
  tube: ShockTube,
  cells: number,
  margin: number,
  gamma = 1.4,
  Duct: DuctKind = ConservativeDuct,
) {
  const { network, duct, at } = runTube(tube, cells, margin, gamma, Duct);
  const exact = solveRiemann(state(tube.left, gamma), state(tube.right, gamma));
  let sum = 0;
  let count = 0;
  let lowest = Number.POSITIVE_INFINITY;
  const star = { pressure: Number.NaN, velocity: Number.NaN, gap: Number.POSITIVE_INFINITY };
  const out = new Float64Array(4);
  // Middle of the star region to the left of the contact.
  const middle = tube.membrane + 0.5 * tube.time * (exact.left.tail + exact.velocity);
  for (let i = 0; i < duct.cells; i++) {
    const x = at(i);
    duct.probe(duct.centre(i), out);
    lowest = Math.min(lowest, out[0]!, out[3]!);
    if (x < 0 || x > 1) continue;
    count++;
    sum += Math.abs(duct.now.density[i]! - sampleRiemann(exact, (x - tube.membrane) / tube.time).density);
    if (Math.abs(x - middle) < star.gap)
      Object.assign(star, { pressure: out[0], velocity: out[1], gap: Math.abs(x - middle) });
  }
  return { error: sum / count, lowest, star, exact, ledger: network.ledger };
}

describe('shock tubes', () => {
  test('Sod, 200 cells, Courant number 0.8: density to a quarter of a percent, star state to 0.3 %', () => {
    const { error, star, exact } = compare(TORO[0]!, 200, 0);
    // 0.00155 was reached; a parabolic, characteristic-traced trial of the same mesh 0.0020.
    expect(error).toBeLessThan(0.0025);
    expect(Math.abs(star.pressure / exact.pressure - 1)).toBeLessThan(0.003);
    expect(Math.abs(star.velocity / exact.velocity - 1)).toBeLessThan(0.003);
  });

  test('Sod: the error falls with the mesh, as shocks and contacts allow', () => {
    // First order at the shock, order 3/4 or so at the contact: halving the cells takes the error to 0.5 to 0.65.
    const ratio = compare(TORO[0]!, 400, 0).error / compare(TORO[0]!, 200, 0).error;
    expect(ratio).toBeGreaterThan(0.4);
    expect(ratio).toBeLessThan(0.65);
  });

  // Bounds: twice what the scheme leaves at 200 cells, in the units of the densities of a few that occur there.
  const bounds = [0.0031, 0.0087, 0.13, 0.12, 0.43];
  test.each(TORO.map((tube, k) => ({ ...tube, bound: bounds[k]! })))(
    '$name runs through without a negative pressure',
    (tube) => {
      // The tube is made longer at both ends, so that nothing comes back from there.
      const { error, lowest } = compare(tube, 200, 1);
      expect(lowest).toBeGreaterThan(0);
      expect(error).toBeLessThan(tube.bound);
    },
  );

  // One and a half times what finite volumes leave: less sharp where streams part, sharper at blasts.
  const rivals = [0.0032, 0.0052, 0.1, 0.093, 0.34];
  test.each(TORO.map((tube, k) => ({ ...tube, bound: rivals[k]! })))(
    '$name by finite volumes too',
    (tube) => {
      const { error, lowest } = compare(tube, 200, 1, 1.4, FiniteVolumeDuct);
      expect(lowest).toBeGreaterThan(0);
      expect(error).toBeLessThan(tube.bound);
    },
  );

  test('colliding streams pull a vacuum at the closed ends: steps are taken again, and the count is kept', () => {
    const { network, duct } = runTube(TORO[4]!, 200);
    expect(network.ledger.rejected).toBeGreaterThan(0);
    for (let i = 0; i < duct.cells; i++) expect(duct.now.density[i]).toBeGreaterThan(0);
    // Nothing was lost by it: mass 0.4 x 5.99924 + 0.6 x 5.99242 on a cross-section of pi/4.
    const mass = (Math.PI / 4) * (0.4 * 5.99924 + 0.6 * 5.99242);
    expect(Math.abs(duct.mass() / mass - 1)).toBeLessThan(1e-13);
  });
});

// Full-bore opening of a port in sizes of an engine; star states computed by a separate program (derived here).
const ENGINE_SIZED = [
  { gamma: 1.4, R: 287, left: [1.5e5, 293], right: [1e5, 293], pressure: 122109.8, velocity: 49.6833 },
  { gamma: 1.4, R: 287, left: [2e5, 293], right: [1e5, 293], pressure: 140179, velocity: 84.9272 },
  { gamma: 1.33, R: 290, left: [5e5, 1300], right: [1.013e5, 700], pressure: 243289.1, velocity: 366.886 },
] as const;

describe('engine-sized shock tubes', () => {
  test.each(ENGINE_SIZED)('$left against $right', ({ gamma, R, left, right, pressure, velocity }) => {
    const a = Math.sqrt(gamma * R * left[1]);
    const { star } = compare(
      {
        name: 'engine-sized',
        left: [left[0] / (R * left[1]), 0, left[0]],
        right: [right[0] / (R * right[1]), 0, right[0]],
        membrane: 0.5,
        time: 0.25 / a,
      },
      200,
      0,
      gamma,
    );
    expect(Math.abs(star.pressure / pressure - 1)).toBeLessThan(0.003);
    expect(Math.abs(star.velocity / velocity - 1)).toBeLessThan(0.003);
  });
});
