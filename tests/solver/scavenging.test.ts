/**
 * The cylinder's two zones in the limits of scavenging theory: a steady stream at constant temperature into the transfers,
 * the same mass out of the exhaust. Ring: exact solution. Sources: Heywood 1988, section 6.6; three-way stream derived here.
 */

import { describe, expect, test } from 'vitest';
import { dryAir } from '../../solver/gas/mixture.ts';
import { CLOCK, type Clock, GasModel, newClock, RESERVOIR, rigidDrive, Volume } from '../../solver/index.ts';
import { displacement, perfectMixing, threeWayStream } from '../../src/verify/exact/scavenging.ts';

const GAS = GasModel.blend(dryAir(), dryAir());
const TEMPERATURE = 400;
const RATE = 0.1;

/** Share of fresh gas in the cylinder after a scavenge ratio, and the burnt share of the stream leaving just then. */
function scavenged(ratio: number, share: { displacement: number; shortCircuit: number }, steps = 2000) {
  const cylinder = new Volume('cylinder', GAS, rigidDrive(125e-6), share);
  cylinder.fill(0, 1.2e5, TEMPERATURE, 1);
  const mass = cylinder.mass();
  const time = (ratio * mass) / RATE;
  const dt = time / steps;
  const enthalpy = GAS.enthalpy(TEMPERATURE, 0);
  const flows = (clock: Clock): void => {
    cylinder.startStage(clock);
    cylinder.book('transfer', Float64Array.of(RATE, RATE * enthalpy, 0), 1);
    const { exhaust } = cylinder;
    const out = [RATE, RATE * exhaust[RESERVOIR.enthalpy]!, RATE * exhaust[RESERVOIR.burnt]!];
    cylinder.book('exhaust', Float64Array.from(out), -1);
  };
  for (let step = 0; step < steps; step++) {
    const clock = newClock(step * dt, dt);
    clock[CLOCK.span] = 0.5 * dt;
    flows(clock);
    cylinder.predict();
    clock[CLOCK.span] = dt;
    flows(clock);
    cylinder.finish();
    cylinder.accept();
    cylinder.settle();
    expect(cylinder.decode(newClock((step + 1) * dt))).toBe(true);
  }
  return {
    efficiency: 1 - cylinder.burntMass() / cylinder.mass(),
    mass: cylinder.mass() / mass,
    pressure: cylinder.pressure,
    leaving: cylinder.exhaust[RESERVOIR.burnt]!,
  };
}

describe('scavenging', () => {
  test.each([0.3, 0.8, 1.2, 2])('perfect mixing at a scavenge ratio of %s', (ratio) => {
    const { efficiency, mass, pressure, leaving } = scavenged(ratio, { displacement: 0, shortCircuit: 0 });
    expect(efficiency).toBeCloseTo(perfectMixing(ratio), 6);
    expect(leaving).toBeCloseTo(1 - efficiency, 6);
    expect(mass).toBeCloseTo(1, 12);
    expect(pressure / 1.2e5).toBeCloseTo(1, 9);
  });

  test.each([0.3, 0.8, 0.95])('perfect displacement at a scavenge ratio of %s', (ratio) => {
    const { efficiency, leaving } = scavenged(ratio, { displacement: 1, shortCircuit: 0 });
    expect(efficiency).toBeCloseTo(displacement(ratio), 9);
    // Only what was there leaves.
    expect(leaving).toBeCloseTo(1, 9);
  });

  test('perfect displacement is all but complete once the cylinder was filled over', () => {
    // The last hundredth mixes, so that a zone of nothing need not be carried.
    expect(scavenged(1.5, { displacement: 1, shortCircuit: 0 }).efficiency).toBeGreaterThan(0.99);
  });

  test.each([
    [0.8, 0.4, 0],
    [1.2, 0.4, 0],
    [1, 0.7, 0.15],
    [1.4, 0.3, 0.2],
  ])('a stream at ratio %s of which %s displaces and %s crosses', (ratio, d, sigma) => {
    const { efficiency, mass } = scavenged(ratio, { displacement: d, shortCircuit: sigma });
    expect(Math.abs(efficiency - threeWayStream(ratio, d, sigma))).toBeLessThan(2e-4);
    expect(mass).toBeCloseTo(1, 9);
  });
});
