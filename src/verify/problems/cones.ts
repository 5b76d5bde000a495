/** A small pressure step runs from a cylinder into a cone: what the cone sends back, over time, at the joint. */

import type { Taper } from '../../../solver/index.ts';
import { apexDistance, coneStepEcho } from '../exact/cone-step.ts';
import type { Measure, Problem } from '../rig/problem.ts';
import { AIR, between, fill, probeAt, reservoirOf, tapered, watch } from '../rig/rig.ts';
import { add, newTrace, valueAt } from '../rig/traces.ts';

const PRESSURE = 1e5;
/** So small that steepening does not show. */
const STEP = 5;
/** Temperature of air with a sound speed of 343.2 m/s [K]. */
const TEMPERATURE = 343.2 ** 2 / (1.4 * 287);
const PIPE = 0.4;

interface Cone {
  readonly kind: 'diverging' | 'converging';
  readonly diameter: number;
  readonly angleDeg: number;
  readonly length: number;
  readonly times: readonly number[];
}

function coneTaper({ kind, diameter, angleDeg, length }: Cone): Taper {
  const change = 2 * length * Math.tan((angleDeg * Math.PI) / 360);
  return { length, diameter: [diameter, kind === 'diverging' ? diameter + change : diameter - change] };
}

function run(cone: Cone, cells: number): Measure {
  const { kind, diameter, angleDeg, times } = cone;
  const duct = tapered(
    [{ length: PIPE, diameter: [diameter, diameter] }, coneTaper(cone)],
    (PIPE + cone.length) / cells,
  );
  fill(duct, () => ({ pressure: PRESSURE, temperature: TEMPERATURE }));
  const air = reservoirOf(AIR, PRESSURE, TEMPERATURE);
  const incident = (time: number): number => PRESSURE + (time > 0 ? STEP : 0);
  const network = between({ endless: air, incident }, duct, { endless: air });
  const trace = newTrace();
  const arrival = PIPE / 343.2;
  const end = times.at(-1)! + arrival;
  watch(network, 1.02 * end, (time) =>
    add(trace, time - arrival, (probeAt(duct, PIPE).pressure - PRESSURE) / STEP - 1),
  );
  const apex = apexDistance(diameter, angleDeg);
  const errors = times.map((t) => Math.abs(valueAt(trace, t) - coneStepEcho(kind, apex, 343.2, t)));
  const shown = trace.t.filter((t) => t > 5e-5);
  return {
    error: 100 * Math.max(...errors),
    comparison: {
      title: `A step runs into a ${kind} cone of ${angleDeg}°`,
      read: `What comes back at the joint: ${kind === 'diverging' ? 'suction' : 'pressure'} that grows with the way into the cone.`,
      xName: 'time [ms]',
      yName: 'reflected over incident [-]',
      computed: { x: shown.map((t) => 1e3 * t), y: shown.map((t) => trace.y[trace.t.indexOf(t)]!) },
      exact: { x: shown.map((t) => 1e3 * t), y: shown.map((t) => coneStepEcho(kind, apex, 343.2, t)) },
    },
  };
}

const DIFFUSER: Cone = {
  kind: 'diverging',
  diameter: 0.0375,
  angleDeg: 8,
  length: 0.4,
  times: [0.25e-3, 0.5e-3, 1e-3, 2e-3],
};
const BAFFLE: Cone = {
  kind: 'converging',
  diameter: 0.11,
  angleDeg: 20,
  length: 0.2,
  times: [0.25e-3, 0.5e-3, 1e-3],
};

const about = {
  ring: 'exact solution',
  source: 'Benade, Agullo and others on cones; spherical waves, derived here',
  quantity: 'reflected over incident pressure [% of the step]',
  judged: 1,
  bound: 1,
} as const;

export const coneProblems: readonly Problem[] = [
  {
    name: 'step into a diffuser of 8°',
    ...about,
    cells: [80, 160, 320],
    run: (n) => run(DIFFUSER, n),
  },
  {
    name: 'step into a baffle of 20°',
    ...about,
    cells: [60, 120, 240],
    run: (n) => run(BAFFLE, n),
  },
];
