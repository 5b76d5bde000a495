/**
 * Ring: symmetry. Without friction, mixing, heat and valve inertia the equations know no length: every length of the engine times
 * s, its speed over s and its cells times s give the same crank angles, pressures and efficiencies. Derived here
 * (Euler equations, dimensional analysis). The intake is a disc, since a reed's petals have inertia.
 */

import { expect, test } from 'vitest';
import type { Case } from '../../src/model/case.ts';
import type { Engine } from '../../src/model/engine.ts';
import type { Section } from '../../src/model/section.ts';
import { draft, rowAt } from './demo.ts';

function scaled(subject: Case, s: number): Case {
  const { engine, pipe, run } = subject;
  const section = (one: Section): Section => ({
    ...one,
    length: s * one.length,
    diameter: [s * one.diameter[0], s * one.diameter[1]],
  });
  const windows = (all: Engine['exhaust']['windows']): Engine['exhaust']['windows'] =>
    all.map((w) => ({
      ...w,
      width: s * w.width,
      height: w.height === null ? null : s * w.height,
      cornerTop: s * w.cornerTop,
      cornerBottom: s * w.cornerBottom,
      roofArch: s * w.roofArch,
      chamferHeight: s * w.chamferHeight,
      chamferDepth: s * w.chamferDepth,
    }));
  const { passage } = engine.transfers;
  return {
    ...subject,
    engine: {
      ...engine,
      bore: s * engine.bore,
      stroke: s * engine.stroke,
      rod: s * engine.rod,
      exhaust: { ...engine.exhaust, windows: windows(engine.exhaust.windows) },
      transfers: {
        ...engine.transfers,
        windows: windows(engine.transfers.windows),
        passage: {
          ...passage,
          length: s * passage.length,
          area: s * s * passage.area,
          entryArea: s * s * passage.entryArea,
          exitArea: s * s * passage.exitArea,
        },
      },
      passage: {
        ...engine.passage,
        length: s * engine.passage.length,
        entryArea: s * s * engine.passage.entryArea,
        exitArea: s * s * engine.passage.exitArea,
      },
      crankcase: { ...engine.crankcase, volume: s ** 3 * engine.crankcase.volume },
      intake: {
        kind: 'disc',
        tract: engine.intake.tract.map(section),
        opensDeg: -140,
        closesDeg: 65,
        area: s * s * 8e-4,
        rampDeg: 30,
        discharge: 0.7,
      },
      cylinderHeat: { ...engine.cylinderHeat, model: 'none' },
    },
    pipe: { ...pipe, sections: pipe.sections.map(section) },
    run: { ...run, cell: s * 0.01, friction: false, mixing: 0, wallHeat: 'none' },
  };
}

test('an engine twice as large at half the speed behaves alike', () => {
  const subject = draft('a');
  const small = rowAt(scaled(subject, 1), 10_000);
  const large = rowAt(scaled(subject, 2), 5000);
  expect(small.settled).toBe(true);
  const same = [
    'plugback_onset_deg',
    'plugback_peak_deg',
    'plugback_centroid_deg',
    'plugback_end_deg',
    'plugback_peak_bar',
    'suction_bar',
    'imep_bar',
    'delivery_ratio',
    'scavenging_efficiency',
    'trapping_efficiency',
    'charging_efficiency',
    'transfer_opening_cylinder_bar',
    'exhaust_gas_temperature_k',
    'traced_return_baffle_middle_deg',
    'echo_gain',
  ] as const;
  for (const name of same) expect(Math.abs(large[name] / small[name] - 1), name).toBeLessThan(1e-6);
});
