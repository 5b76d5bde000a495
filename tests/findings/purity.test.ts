/** Purity over the scavenging of a cycle. Rings: exact solution (derived in the source), identity with the row of an engine. */

import { describe, expect, test } from 'vitest';
import { runSpeed } from '../../src/engine/run/run-speed.ts';
import {
  type PurityCurve,
  perfectDisplacement,
  perfectMixing,
  purityCurve,
} from '../../src/findings/purity.ts';
import { draft } from '../engine/demo.ts';

describe('a cylinder that mixes whatever comes in', () => {
  const STEPS = 4000;
  /** Its mass swings by a third, so what leaves is not what enters; the burnt share is the closed form. */
  const steps = Array.from({ length: STEPS + 1 }, (_, i) => i / STEPS);
  const mass = steps.map((t) => 1e-4 * (1 + 0.3 * Math.sin(5 * t)));
  const flow = steps.map((t) => 0.03 * Math.sin(Math.PI * t));
  const ratio = [0];
  const degPerSecond = 60_000;
  const endDeg = steps.map((t) => 100 * t);
  for (let i = 1; i <= STEPS; i++) {
    const dt = 100 / STEPS / degPerSecond;
    ratio.push(ratio[i - 1]! + (0.5 * (flow[i]! + flow[i - 1]!) * dt) / (0.5 * (mass[i]! + mass[i - 1]!)));
  }
  const burnt = mass.map((held, i) => held * Math.exp(-ratio[i]!));
  const out = flow.map((into, i) => Math.max(0, into - 1e-4 * 0.3 * 5 * 600 * Math.cos(5 * steps[i]!)));
  const found = purityCurve(
    {
      steps: STEPS + 1,
      endDeg,
      degPerSecond,
      mass,
      burnt,
      transferFlow: flow,
      exhaustFlow: out,
      exhaustBurnt: out.map((all, i) => all * Math.exp(-ratio[i]!)),
    },
    0,
    100,
  );

  test('lies on the reference, and what leaves with it', () => {
    expect(found.ratio.at(-1)).toBeGreaterThan(0.25);
    found.ratio.forEach((at, k) => {
      expect(found.kept[k]).toBeCloseTo(perfectMixing(at), 3);
      if (found.leaving[k] !== null) expect(found.leaving[k]).toBeCloseTo(found.kept[k]!, 9);
    });
  });

  test('nothing is said of what leaves where nothing does', () => {
    expect(found.leaving[0]).toBeNull();
    expect(found.leaving.some((share) => share !== null)).toBe(true);
  });
});

test('perfect displacement keeps all until the cylinder is turned over once', () => {
  expect([0, 0.4, 1, 1.7].map(perfectDisplacement)).toEqual([0, 0.4, 1, 1]);
});

describe('the demo at 9500 rpm on 20 mm cells', () => {
  const at = (...set: string[]) => {
    const { record } = runSpeed({ subject: draft('a', ['run.cell=20mm', ...set]), rpm: 9500, start: null });
    return record;
  };
  const upTo = ({ ratio, kept, leaving }: PurityCurve, most: number) =>
    ratio.map((sr, k) => ({ sr, kept: kept[k]!, leaving: leaving[k]! })).filter(({ sr }) => sr <= most);

  test('a law of mixing alone is drawn on the reference', () => {
    const mixing = 'engine.scavenging={ threeWay: { displacement: 0, shortCircuit: 0 } }';
    const { purity } = at(mixing);
    const points = upTo(purity, 1.5);
    expect(points.length).toBeGreaterThan(15);
    for (const { sr, kept, leaving } of points) {
      // Some burnt gas enters with the charge, some was left unburnt: two hundredths.
      expect(Math.abs(kept - perfectMixing(sr))).toBeLessThan(0.03);
      if (leaving !== null) expect(Math.abs(leaving - kept)).toBeLessThan(0.02);
    }
  });

  test('two zones lie between both references, and end with the scavenging efficiency of the row', () => {
    const { purity, row } = at();
    for (const { sr, kept } of upTo(purity, 1.5).filter((one) => one.sr > 0.8)) {
      expect(kept).toBeGreaterThan(perfectMixing(sr));
      expect(kept).toBeLessThan(perfectDisplacement(sr));
    }
    expect(Math.abs(purity.kept.at(-1)! - row.scavenging_efficiency!)).toBeLessThan(0.003);
  });
});
