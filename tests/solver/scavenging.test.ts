/**
 * The laws of scavenging in a volume of constant density: a steady stream at constant temperature sweeps it, the same mass
 * leaves. Ring: exact solution. Sources: Heywood 1988, section 6.6; three-way stream derived here.
 */

import { describe, expect, test } from 'vitest';
import { dryAir } from '../../solver/gas/mixture.ts';
import {
  CLOCK,
  type Clock,
  GasModel,
  MeasuredCurve,
  newClock,
  RESERVOIR,
  rigidDrive,
  type ScavengingLaw,
  ThreeWayStream,
  TwoZones,
  Volume,
} from '../../solver/index.ts';
import { newSweep, SWEEP } from '../../solver/volumes/scavenging/law.ts';
import { displacement, perfectMixing, threeWayStream, twoZone } from '../exact/scavenging.ts';

const GAS = GasModel.blend(dryAir(), dryAir());
const TEMPERATURE = 400;
const RATE = 0.1;

/** Share of fresh gas in the cylinder after a scavenge ratio, and the burnt share of the stream leaving just then. */
function scavenged(ratio: number, law: ScavengingLaw, steps = 2000) {
  const cylinder = new Volume('cylinder', GAS, rigidDrive(125e-6), law);
  cylinder.fill(0, 1.2e5, TEMPERATURE, 1);
  const mass = cylinder.mass();
  const time = (ratio * mass) / RATE;
  const dt = time / steps;
  const enthalpy = GAS.enthalpy(TEMPERATURE, 0);
  const flows = (clock: Clock): void => {
    cylinder.startStage(clock);
    cylinder.book('sweeping', Float64Array.of(RATE, RATE * enthalpy, 0), 1);
    const { swept } = cylinder;
    const out = [RATE, RATE * swept[RESERVOIR.enthalpy]!, RATE * swept[RESERVOIR.burnt]!];
    cylinder.book('swept', Float64Array.from(out), -1);
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
    if (!cylinder.decode(newClock((step + 1) * dt))) throw new Error(cylinder.complaint());
  }
  return {
    efficiency: 1 - cylinder.burntMass() / cylinder.mass(),
    mass: cylinder.mass() / mass,
    pressure: cylinder.pressure,
    leaving: cylinder.swept[RESERVOIR.burnt]!,
  };
}

describe('scavenging', () => {
  test.each([0.3, 0.8, 1.2, 2])('perfect mixing at a scavenge ratio of %s', (ratio) => {
    const { efficiency, mass, pressure, leaving } = scavenged(
      ratio,
      new ThreeWayStream({ displacement: 0, shortCircuit: 0 }),
    );
    expect(efficiency).toBeCloseTo(perfectMixing(ratio), 6);
    expect(leaving).toBeCloseTo(1 - efficiency, 6);
    expect(mass).toBeCloseTo(1, 12);
    expect(pressure / 1.2e5).toBeCloseTo(1, 9);
  });

  test.each([0.3, 0.8, 0.95])('perfect displacement at a scavenge ratio of %s', (ratio) => {
    const { efficiency, leaving } = scavenged(
      ratio,
      new ThreeWayStream({ displacement: 1, shortCircuit: 0 }),
    );
    expect(efficiency).toBeCloseTo(displacement(ratio), 9);
    // Only what was there leaves.
    expect(leaving).toBeCloseTo(1, 9);
  });

  test('perfect displacement is all but complete once the cylinder was filled over', () => {
    // The last hundredth mixes, so that a zone of nothing need not be carried.
    expect(
      scavenged(1.5, new ThreeWayStream({ displacement: 1, shortCircuit: 0 })).efficiency,
    ).toBeGreaterThan(0.99);
  });

  test.each([
    [0.8, 0.4, 0],
    [1.2, 0.4, 0],
    [1, 0.7, 0.15],
    [1.4, 0.3, 0.2],
  ])('a stream at ratio %s of which %s displaces and %s crosses', (ratio, d, sigma) => {
    const { efficiency, mass } = scavenged(
      ratio,
      new ThreeWayStream({ displacement: d, shortCircuit: sigma }),
    );
    expect(Math.abs(efficiency - threeWayStream(ratio, d, sigma))).toBeLessThan(2e-4);
    expect(mass).toBeCloseTo(1, 9);
  });

  test.each([
    [0.3, 0.57],
    [0.43, 0.57],
    [0.8, 0.57],
    [1, 0.57],
    [2, 0.57],
    [1.5, 0.2],
    [1, 1],
  ])('two zones at ratio %s with a mixing volume of %s', (ratio, y) => {
    const law = new TwoZones({ mixingVolume: y, shortCircuit: 0 });
    const { efficiency, mass } = scavenged(ratio, law, 4000);
    expect(Math.abs(efficiency - twoZone(ratio, y))).toBeLessThan(1e-6);
    expect(mass).toBeCloseTo(1, 9);
  });

  test('two zones of which a share crosses take the closed form at a smaller ratio', () => {
    const law = new TwoZones({ mixingVolume: 0.57, shortCircuit: 0.1 });
    for (const ratio of [0.4, 1.2]) {
      // What crosses stands in the volume for a step, one in four thousand, before it leaves.
      expect(Math.abs(scavenged(ratio, law, 4000).efficiency - twoZone(ratio, 0.57, 0.1))).toBeLessThan(2e-4);
    }
  });

  const LOOP = [
    { scavengeRatio: 0.5, efficiency: 0.47 },
    { scavengeRatio: 1, efficiency: 0.79 },
    { scavengeRatio: 1.5, efficiency: 0.9 },
    { scavengeRatio: 2, efficiency: 0.95 },
  ];

  test.each(LOOP)(
    'a curve is followed through its own points: $scavengeRatio',
    ({ scavengeRatio, efficiency }) => {
      const kept = scavenged(scavengeRatio, new MeasuredCurve(LOOP), 2000);
      expect(Math.abs(kept.efficiency - efficiency)).toBeLessThan(1e-3);
      expect(kept.mass).toBeCloseTo(1, 9);
    },
  );

  test('a curve is straight between its points, and beyond them the rest mixes', () => {
    const law = new MeasuredCurve(LOOP);
    expect(Math.abs(scavenged(0.75, law).efficiency - 0.63)).toBeLessThan(1e-3);
    // 1 - SE falls from 0.05 with the slope of the last stretch, 0.1: 0.05 exp(-0.1/0.05 (SR - 2)).
    expect(Math.abs(scavenged(2.5, law).efficiency - (1 - 0.05 * Math.exp(-1)))).toBeLessThan(1e-3);
  });

  test('a curve gives no more of the second zone than it holds', () => {
    const sweep = newSweep();
    const law = new MeasuredCurve([{ scavengeRatio: 1, efficiency: 0.4 }]);
    sweep.set([0.01, 0, 1]);
    law.fillLeaving(sweep);
    expect(sweep[SWEEP.fromSecond]).toBe(0.01);
    sweep.set([0.2, 1, 1]);
    law.fillLeaving(sweep);
    expect(sweep[SWEEP.fromSecond]).toBeCloseTo(0.6, 14);
  });

  test.each([
    [[], 'at least one point'],
    [[{ scavengeRatio: 1, efficiency: 1 }], 'stay below 1'],
    [[{ scavengeRatio: 0.5, efficiency: 0.6 }], 'than came in'],
    [[LOOP[1]!, LOOP[0]!], 'must grow'],
  ])('a curve that cannot be is refused: %#', (points, words) => {
    expect(() => new MeasuredCurve(points)).toThrow(words);
  });

  test('shares outside 0 to 1 are refused', () => {
    expect(() => new TwoZones({ mixingVolume: 1.1, shortCircuit: 0 })).toThrow(RangeError);
    expect(() => new ThreeWayStream({ displacement: 0.5, shortCircuit: Number.NaN })).toThrow(RangeError);
  });
});

describe('a small zone that is turned over within a step', () => {
  // A share of 2 % enters unmixed beyond what crosses, so that zone 1 lives for less than a step.
  test.each([
    [0.1, 1],
    [0.1, 1.6],
    [0.2, 1.6],
  ])('steps of %s of the volume, leaving %s times as fast every third', (turnover, surge) => {
    const law = new ThreeWayStream({ displacement: 0.03, shortCircuit: 0.31 });
    const cylinder = new Volume('cylinder', GAS, rigidDrive(125e-6), law);
    cylinder.fill(0, 1.2e5, 1200, 1);
    const dt = (turnover * cylinder.mass()) / RATE;
    const enthalpy = GAS.enthalpy(350, 0);
    let before = cylinder.energyContent();
    let mass = cylinder.mass();
    for (let step = 0; step < 12; step++) {
      const clock = newClock(step * dt, dt);
      let energy = 0;
      let gas = 0;
      for (const half of [0.5, 1]) {
        clock[CLOCK.span] = half * dt;
        cylinder.startStage(clock);
        // The stream out is not that which the law was told of: it jumps between the stages.
        const lull = 1 - 0.5 * (surge - 1);
        const out = (half === 1 && step % 3 === 2 ? surge : lull) * RATE;
        const { swept } = cylinder;
        energy = RATE * enthalpy - out * swept[RESERVOIR.enthalpy]!;
        gas = RATE - out;
        cylinder.book('sweeping', Float64Array.of(RATE, RATE * enthalpy, 0), 1);
        cylinder.book(
          'swept',
          Float64Array.of(out, out * swept[RESERVOIR.enthalpy]!, out * swept[RESERVOIR.burnt]!),
          -1,
        );
        if (half < 1) cylinder.predict();
        else cylinder.finish();
      }
      cylinder.accept();
      if (!cylinder.decode(newClock((step + 1) * dt))) throw new Error(cylinder.complaint());
      const [, , , m1, e1, b1] = cylinder.now;
      expect(m1).toBeGreaterThan(0);
      expect(e1).toBeLessThan(m1! * GAS.energy(1200, 0));
      expect(Math.abs(b1!)).toBeLessThan(1e-9 * m1!);
      expect(cylinder.temperature[1]).toBeGreaterThan(250);
      expect(cylinder.temperature[1]).toBeLessThan(600);
      // What zone 1 does not give, zone 0 does: the sums stand.
      expect(cylinder.mass()).toBeCloseTo(mass + dt * gas, 15);
      expect(cylinder.energyContent() / (before + dt * energy)).toBeCloseTo(1, 12);
      before = cylinder.energyContent();
      mass = cylinder.mass();
    }
  });
});
