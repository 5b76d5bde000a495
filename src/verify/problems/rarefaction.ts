/** A diaphragm at the end of a tube bursts towards a near vacuum: the centred fan and its reflection off the closed end. */

import { wallPressure } from '../exact/closed-rarefaction.ts';
import type { Measure, Problem } from '../rig/problem.ts';
import { AIR, between, fill, probeAt, reservoirOf, straight, watch } from '../rig/rig.ts';
import { add, newTrace, valueAt } from '../rig/traces.ts';

const PRESSURE = 4e5;
const A0 = Math.sqrt(1.4 * 287 * 293);

/** Times in units of L/a0 at which the wall's sound speed has fallen to 0.95, 0.9, 0.85, 0.8 and 0.7 of a0. */
const TIMES = [1.1709578, 1.394668, 1.6934153, 2.1014404, 3.4957904] as const;

function run(cells: number): Measure {
  const duct = straight(1, cells);
  fill(duct, () => ({ pressure: PRESSURE, temperature: 293 }));
  // The face is sonic all along: what lies beyond does not matter.
  const beyond = reservoirOf(AIR, 1e3, 293);
  const network = between('closed', duct, { open: beyond });
  const trace = newTrace();
  watch(network, 3.6 / A0, (time) => add(trace, time * A0, probeAt(duct, 0).pressure / PRESSURE));
  const errors = TIMES.map((t) => Math.abs(valueAt(trace, t) / wallPressure(t) - 1));
  return {
    error: 100 * Math.max(...errors),
    comparison: {
      title: 'Pressure at the closed end as a tube empties',
      read: 'The rarefaction arrives at time 1 and is reflected.',
      xName: 'time [L/a0]',
      yName: 'pressure [p0]',
      computed: { x: trace.t, y: trace.y },
      exact: { x: trace.t, y: trace.t.map(wallPressure) },
    },
  };
}

export const rarefactionProblems: readonly Problem[] = [
  {
    name: 'rarefaction off closed end',
    ring: 'exact solution',
    source: 'Euler-Poisson-Darboux equation, derived here',
    quantity: 'wall pressure at five times [%]',
    cells: [200, 400, 800],
    judged: 1,
    bound: 0.3,
    run,
  },
];
