/**
 * Sudden changes of area between two pipes. A wave fills the first pipe and meets the second at rest: what comes back and
 * what goes on, with the Borda-Carnot loss into a wider pipe, loss-free into a narrower one. And the steady flow through a
 * step, against the Borda-Carnot balance of its own Mach number.
 */

import { ANSWER, type Link, Network } from '../../../solver/index.ts';
import { bordaCarnot } from '../exact/area-change.ts';
import { bordaStep, isentropicStep, type StepWaves } from '../exact/area-step.ts';
import { pressureRatioOf, simpleWave } from '../exact/simple-wave.ts';
import type { Measure, Problem } from '../rig/problem.ts';
import { AIR, fill, linkOf, probeAt, reservoirOf, tapered } from '../rig/rig.ts';
import { STILL } from './waves.ts';

const A0 = Math.sqrt(1.4 * 287 * 293);
const BORE = 0.04;

function pair(ratio: number, cells: number, length = 1) {
  const cell = length / cells;
  const first = tapered([{ length, diameter: [BORE, BORE] }], cell);
  const bore = BORE * Math.sqrt(ratio);
  const second = tapered([{ length, diameter: [bore, bore] }], cell);
  const step: Link = { kind: 'step', first: first.right, second: second.left, contraction: 1 };
  return { first, second, step };
}

function waves(incident: number, ratio: number, exact: StepWaves, cells: number): number {
  const { first, second, step } = pair(ratio, cells);
  const wave = simpleWave(STILL, incident);
  fill(first, () => wave);
  fill(second, () => ({ pressure: STILL.pressure, temperature: STILL.temperature }));
  const network = new Network(
    [first, second],
    [],
    [linkOf(first, 'left', 'closed'), step, linkOf(second, 'right', 'closed')],
    0.9,
  );
  network.marchTo(1.2e-3);
  for (const duct of network.ducts) duct.decode();
  // Half way back to the reflected wave's front, and between the contact and the transmitted front.
  const behind = probeAt(first, 1 - 0.1);
  const sound = Math.sqrt(1.4 * 287 * behind.temperature) / A0;
  const reflected = pressureRatioOf(0.5 * (sound - (0.2 * behind.velocity) / A0 + 1), 1.4);
  const ahead = probeAt(second, 0.25).pressure / STILL.pressure;
  return Math.max(Math.abs(reflected / exact.reflected - 1), Math.abs(ahead / exact.transmitted - 1));
}

/** Incident pressure ratio and area ratio of the rows. */
const EXPANSIONS = [
  [1.2, 2],
  [1.2, 4],
  [1.2, 8.38],
  [1.5, 2],
  [1.5, 4],
] as const;
const CONTRACTIONS = [
  [1.2, 0.5],
  [1.2, 0.25],
  [1.5, 0.5],
] as const;

function worst(
  rows: readonly (readonly [number, number])[],
  model: typeof bordaStep,
  cells: number,
): Measure {
  const errors = rows.map(([incident, ratio]) => {
    const exact = model(incident, ratio, 1.4);
    return exact === null ? Number.NaN : waves(incident, ratio, exact, cells);
  });
  return { error: 100 * Math.max(...errors) };
}

/** Steady flow into a wider pipe, driven by a reservoir: pressure and Mach number behind the step. */
function steady(ratio: number, back: number, cells: number): number {
  const { first, second, step } = pair(ratio, cells, 0.2);
  fill(first, () => ({ pressure: 1e5, temperature: 300 }));
  fill(second, () => ({ pressure: 1e5, temperature: 300 }));
  const before = reservoirOf(AIR, 1e5, 300);
  const behind = reservoirOf(AIR, back, 300);
  const network = new Network(
    [first, second],
    [],
    [linkOf(first, 'left', { open: before }), step, linkOf(second, 'right', { open: behind })],
    0.9,
  );
  network.marchTo(0.15);
  const mach = (out: Float64Array): number => {
    const [density, velocity, pressure] = [
      out[ANSWER.density],
      out[ANSWER.velocity],
      out[ANSWER.pressure],
    ] as [number, number, number];
    return Math.abs(velocity) / Math.sqrt((1.4 * pressure) / density);
  };
  const narrow = first.right.answer;
  const wide = second.left.answer;
  const exact = bordaCarnot(mach(narrow), ratio, 1.4);
  const rise = wide[ANSWER.pressure]! / narrow[ANSWER.pressure]!;
  return Math.max(Math.abs(rise - exact.pressure), Math.abs(mach(wide) - exact.mach));
}

const about = { ring: 'exact solution', cells: [100, 200, 400], judged: 1 } as const;

export const areaStepProblems: readonly Problem[] = [
  {
    ...about,
    name: 'waves to a wider pipe',
    source: 'Benson 1982, junctions, with the Borda-Carnot loss; match derived here',
    quantity: 'reflected and transmitted pressure [%]',
    bound: 0.3,
    run: (n) => worst(EXPANSIONS, bordaStep, n),
  },
  {
    ...about,
    name: 'waves to a narrower pipe',
    source: 'Benson 1982, junctions with the energy equation, from memory',
    quantity: 'reflected and transmitted pressure [%]',
    bound: 0.3,
    run: (n) => worst(CONTRACTIONS, isentropicStep, n),
  },
  {
    name: 'steady flow to a wider pipe',
    ring: 'identity',
    source: 'Borda-Carnot: momentum balance with the narrow pipe’s pressure on the annulus',
    quantity: 'pressure ratio and Mach number behind [-]',
    cells: [20],
    judged: 0,
    bound: 5e-7,
    run: (n) => ({
      error: Math.max(...[2, 4].flatMap((m) => [0.95e5, 0.88e5].map((back) => steady(m, back, n)))),
    }),
  },
];
