/**
 * Single waves of finite amplitude in a plain pipe of cold air, bells 60 cells of 5 mm long: how fast their states travel,
 * what a closed and an open end send back, what two of them make where they pass through each other.
 */

import { ANSWER, type MarchingDuct } from '../../../solver/index.ts';
import { wallPressureRatio } from '../exact/closed-end.ts';
import { reflectAtOpenEnd } from '../exact/open-end.ts';
import { amplitude, pressureRatioOf, type StillGas, simpleWave, superpose } from '../exact/simple-wave.ts';
import type { Measure, Problem } from '../rig/problem.ts';
import { AIR, between, type Filling, fill, probeAt, reservoirOf, straight, watch } from '../rig/rig.ts';
import { add, crest, crossing, newTrace, type Trace, trough } from '../rig/traces.ts';

export const STILL: StillGas = { gamma: 1.4, gasConstant: 287, temperature: 293, pressure: 101325 };
const A0 = Math.sqrt(1.4 * 287 * 293);
/** Length of a bell [m]. */
const BELL = 0.3;

/** Pressure ratio of a bell of crest `ratio` whose front foot lies at `front`; running right for `way` 1, left for -1. */
function bell(ratio: number, front: number, x: number, way: 1 | -1 = 1): number {
  const z = (way * (front - x)) / BELL;
  if (z <= 0 || z >= 1) return 1;
  return pressureRatioOf(1 + (amplitude(ratio, 1.4) - 1) * Math.sin(Math.PI * z) ** 2, 1.4);
}

function stateOf(pressureRatio: number, way: 1 | -1 = 1): Filling {
  const wave = simpleWave(STILL, pressureRatio);
  return { pressure: wave.pressure, temperature: wave.temperature, velocity: way * wave.velocity };
}

/** A pipe of a length that is a whole number of the cells asked for in one bell. */
function pipe(length: number, cells: number): MarchingDuct {
  return straight(length, Math.round((length * cells) / BELL));
}

/** The extremum of a trace in the sense of a wave: crest of a compression, trough of an expansion. */
function extremum(trace: Trace, ratio: number, from?: number, to?: number) {
  return ratio > 1 ? crest(trace, from, to) : trough(trace, from, to);
}

function travel(ratio: number, cells: number): Measure {
  const duct = pipe(1.2, cells);
  fill(duct, (x) => stateOf(bell(ratio, 0.35, x)));
  const network = between('closed', duct, 'closed');
  const stations = [0.45, 0.6] as const;
  const pressure = stations.map(newTrace);
  const velocity = stations.map(newTrace);
  watch(network, 2.3e-3, (time) => {
    stations.forEach((x, k) => {
      const { pressure: p, velocity: u } = probeAt(duct, x);
      add(pressure[k]!, time, p / STILL.pressure);
      add(velocity[k]!, time, u);
    });
  });
  const [first, second] = pressure as [Trace, Trace];
  const way = stations[1] - stations[0];
  const exact = simpleWave(STILL, ratio);
  const half = pressureRatioOf(0.5 * (1 + amplitude(ratio, 1.4)), 1.4);
  const halfSpeed = simpleWave(STILL, half).propagation;
  const [top1, top2] = [extremum(first, ratio), extremum(second, ratio)];
  const rise = crossing(second, half) - crossing(first, half);
  const fall = crossing(second, half, top2.t) - crossing(first, half, top1.t);
  const u = extremum(velocity[1]!, ratio).y;
  const errors = [
    way / (top2.t - top1.t) / exact.propagation - 1,
    way / rise / halfSpeed - 1,
    way / fall / halfSpeed - 1,
    top2.y / ratio - 1,
    u / exact.velocity - 1,
  ];
  return { error: 100 * Math.max(...errors.map(Math.abs)) };
}

function wall(ratio: number, cells: number): Measure {
  const duct = pipe(0.6, cells);
  fill(duct, (x) => stateOf(bell(ratio, 0.5, x)));
  const network = between('closed', duct, 'closed');
  const trace = newTrace();
  watch(network, 1.6e-3, (time) => add(trace, time, probeAt(duct, 0.6).pressure / STILL.pressure));
  return { error: 100 * Math.abs(extremum(trace, ratio).y / wallPressureRatio(ratio, 1.4) - 1) };
}

function openEnd(ratio: number, cells: number): Measure {
  const duct = pipe(0.9, cells);
  fill(duct, (x) => stateOf(bell(ratio, 0.8, x)));
  const air = reservoirOf(AIR, STILL.pressure, STILL.temperature);
  const network = between('closed', duct, { open: air });
  const trace = newTrace();
  watch(network, 3e-3, (time) => add(trace, time, probeAt(duct, 0.5).pressure / STILL.pressure));
  // The bell starts beyond the station: what passes it is the reflected wave.
  const found = ratio > 1 ? trough(trace) : crest(trace);
  return { error: 100 * Math.abs(found.y / reflectAtOpenEnd(ratio, 1.4).reflectedRatio - 1) };
}

/** A pipe full of a wave's gas in motion is let go at an open end at once; choked, the reflected fan hangs on to the face. */
function strongFlow(ratio: number, cells: number): Measure {
  const duct = straight(1, cells);
  fill(duct, () => stateOf(ratio));
  const air = reservoirOf(AIR, STILL.pressure, STILL.temperature);
  between('closed', duct, { open: air }).marchTo(0.8e-3);
  const face = duct.right.answer;
  const [pressure, velocity, density] = [
    face[ANSWER.pressure],
    face[ANSWER.velocity],
    face[ANSWER.density],
  ] as [number, number, number];
  const exact = reflectAtOpenEnd(ratio, 1.4);
  const sound = Math.sqrt((1.4 * pressure) / density) / A0;
  // beta = A - hU = 2 X_r - 1
  const reflected = pressureRatioOf(0.5 * (sound - (0.2 * velocity) / A0 + 1), 1.4);
  const errors = [reflected / exact.reflectedRatio - 1, pressure / STILL.pressure / exact.pressureRatio - 1];
  return { error: 100 * Math.max(...errors.map(Math.abs)) };
}

/** Two long waves, ramps and flat tops of one bell's length, run into each other. */
function passing(right: number, left: number, cells: number): Measure {
  const duct = pipe(1.8, cells);
  const top = (ratio: number, behindFront: number): number => {
    const z = behindFront / BELL;
    const share = z <= 0 ? 0 : z < 1 ? Math.sin(0.5 * Math.PI * z) ** 2 : 1;
    return pressureRatioOf(1 + (amplitude(ratio, 1.4) - 1) * share, 1.4);
  };
  fill(duct, (x) => (x < 0.9 ? stateOf(top(right, 0.85 - x)) : stateOf(top(left, x - 0.95), -1)));
  const network = between('closed', duct, 'closed');
  const exact = superpose(STILL, right, left);
  const meet = 1.25e-3;
  network.marchTo(meet);
  duct.decode();
  const { pressure, velocity } = probeAt(duct, 0.9 + 0.5 * exact.velocity * meet);
  const errors = [pressure / exact.pressure - 1, (velocity - exact.velocity) / A0];
  return { error: 100 * Math.max(...errors.map(Math.abs)) };
}

const SOURCE = 'Blair 1996, ch. 2; Benson 1982, ch. 2-3, values from memory';

function series(
  name: string,
  quantity: string,
  ratios: readonly number[],
  run: (ratio: number, cells: number) => Measure,
  cells: readonly number[] = [30, 60, 120],
): Problem {
  return {
    name,
    ring: 'exact solution',
    source: SOURCE,
    quantity,
    cells,
    judged: 1,
    bound: 0.2,
    run: (n) => worst(ratios.map((ratio) => run(ratio, n))),
  };
}

function worst(measures: readonly Measure[]): Measure {
  return measures.reduce((a, b) => (b.error > a.error ? b : a));
}

export const waveProblems: readonly Problem[] = [
  series(
    'travelling bells',
    'speeds at crest and half height, crest pressure and velocity, p/p0 0.8 to 1.3 [%]',
    [0.8, 0.9, 1.1, 1.2, 1.3],
    travel,
  ),
  series('bells on a closed end', 'wall pressure, p/p0 0.8 to 1.5 [%]', [0.8, 1.1, 1.2, 1.5], wall),
  series(
    'bells at an open end',
    'reflected pressure, p/p0 0.7 to 1.3 [%]',
    [0.7, 0.8, 0.9, 1.2, 1.3],
    openEnd,
  ),
  series(
    'strong flow from open end',
    'reflected and face pressure, p/p0 1.5 to 3 [%]',
    [1.5, 2, 2.5, 3],
    strongFlow,
    [100, 200, 400],
  ),
  {
    ...series('waves passing one another', 'pressure [%], velocity [% of a0]', [], travel),
    run: (n) =>
      worst(
        (
          [
            [1.2, 0.8],
            [1.2, 1.2],
            [0.8, 0.8],
            [1.5, 0.7],
          ] as const
        ).map(([right, left]) => passing(right, left, n)),
      ),
  },
];
