/**
 * A half sine of overpressure steepens into a shock. Before it does, each level of pressure travels at its own u + a; from
 * the places and speeds of two levels follows when and where they will meet. The lowest meet first: the moment of the shock
 * is read from levels between 0.1 and 0.5 of the crest, by a parabola
 * through the reciprocals of the times at which they meet (steepness falls gently with the level) to level nil.
 */

import type { MarchingDuct, Network } from '../../../solver/index.ts';
import { halfSineShockDistance, halfSineShockTime } from '../exact/shock-formation.ts';
import { simpleWave } from '../exact/simple-wave.ts';
import type { Measure, Problem } from '../rig/problem.ts';
import { AIR, between, fill, type Probe, probeAt, reservoirOf, straight } from '../rig/rig.ts';
import { STILL } from './waves.ts';

const A0 = Math.sqrt(1.4 * 287 * 293);

/** Overpressure of the crest over the pressure at rest [-]. */
const OVER = 0.5;
const LEVELS = [0.1, 0.2, 0.3, 0.4, 0.5] as const;

interface Level {
  readonly place: number;
  /** u + a [m/s]. */
  readonly speed: number;
}

/** The levels on the front flank, the first from the right. */
function levelsOf(duct: MarchingDuct): readonly Level[] {
  const { cells, dx } = duct.geometry;
  const speedOf = ({ velocity, temperature }: Probe): number => velocity + Math.sqrt(1.4 * 287 * temperature);
  let i = cells - 1;
  let ahead = probeAt(duct, (i + 0.5) * dx);
  let behind = ahead;
  return LEVELS.map((level) => {
    const pressure = STILL.pressure * (1 + OVER * level);
    while (behind.pressure < pressure && i > 0) {
      ahead = behind;
      i--;
      behind = probeAt(duct, (i + 0.5) * dx);
    }
    const share = (pressure - behind.pressure) / (ahead.pressure - behind.pressure);
    return {
      place: (i + 0.5 + share) * dx,
      speed: speedOf(behind) + share * (speedOf(ahead) - speedOf(behind)),
    };
  });
}

/** Value at nil of the parabola through points, by least squares. */
function atNil(x: readonly number[], y: readonly number[]): number {
  const moment = (n: number, weight: readonly number[] = x.map(() => 1)): number =>
    x.reduce((sum, value, i) => sum + value ** n * weight[i]!, 0);
  const [m0, m1, m2, m3, m4] = [0, 1, 2, 3, 4].map((n) => moment(n)) as [
    number,
    number,
    number,
    number,
    number,
  ];
  const [b0, b1, b2] = [0, 1, 2].map((n) => moment(n, y)) as [number, number, number];
  const whole = m0 * (m2 * m4 - m3 * m3) - m1 * (m1 * m4 - m2 * m3) + m2 * (m1 * m3 - m2 * m2);
  return (b0 * (m2 * m4 - m3 * m3) - m1 * (b1 * m4 - m3 * b2) + m2 * (b1 * m3 - m2 * b2)) / whole;
}

/** Error of time and place [%], read half way; `start` is where the front is at t = 0 [m]. */
function judge(network: Network, time: number, start: number): Measure {
  const now = 0.5 * time;
  network.marchTo(now);
  const duct = network.ducts[0]!;
  duct.decode();
  const levels = levelsOf(duct);
  const height: number[] = [];
  const rates: number[] = [];
  const speeds: number[] = [];
  for (let k = 0; k + 1 < levels.length; k++) {
    const [low, high] = levels.slice(k, k + 2) as [Level, Level];
    const left = (low.place - high.place) / (high.speed - low.speed);
    height.push(0.5 * ((LEVELS[k] as number) + (LEVELS[k + 1] as number)));
    rates.push(1 / (now + left));
    speeds.push((low.place + low.speed * left - start) / (now + left));
  }
  const found = 1 / atNil(height, rates);
  const errors = [found / time - 1, (atNil(height, speeds) * found) / (A0 * time) - 1];
  return { error: 100 * Math.max(...errors.map(Math.abs)) };
}

/** Half sine of 0.5 bar over 1 m, released. */
function released(cells: number): Measure {
  const duct = straight(2.2, Math.round(2.2 * cells));
  fill(duct, (x) => {
    const z = x - 0.1;
    const wave = simpleWave(STILL, z > 0 && z < 1 ? 1 + OVER * Math.sin(Math.PI * z) : 1);
    return { pressure: wave.pressure, temperature: wave.temperature, velocity: wave.velocity };
  });
  return judge(between('closed', duct, 'closed'), halfSineShockTime(STILL, OVER, 1), 1.1);
}

/** Half sine of 0.5 bar over 2 ms, sent in at the end of a pipe. */
function sentIn(cells: number): Measure {
  const duration = 2e-3;
  const distance = halfSineShockDistance(STILL, OVER, duration);
  const duct = straight(0.7, Math.round((0.7 * cells) / (A0 * duration)));
  fill(duct, () => ({ pressure: STILL.pressure, temperature: STILL.temperature }));
  const incident = (time: number): number =>
    STILL.pressure * (1 + (time > 0 && time < duration ? OVER * Math.sin((Math.PI * time) / duration) : 0));
  const air = reservoirOf(AIR, STILL.pressure, STILL.temperature);
  return judge(between({ endless: air, incident }, duct, 'closed'), distance / A0, 0);
}

const about = {
  ring: 'exact solution',
  source: 'Whitham, Linear and Nonlinear Waves, ch. 2; Landau and Lifshitz, section 101, from memory',
  quantity: 'time and place of the shock [%]',
  cells: [100, 200, 400],
  judged: 1,
  bound: 2,
} as const;

export const steepeningProblems: readonly Problem[] = [
  { name: 'released wave steepens', ...about, run: released },
  { name: 'wave sent in steepens', ...about, run: sentIn },
];
