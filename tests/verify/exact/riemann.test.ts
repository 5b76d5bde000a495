import { describe, expect, it } from 'vitest';
import {
  type GasState,
  type RiemannSolution,
  sampleRiemann,
  solveRiemann,
} from '../../../src/verify/exact/riemann.ts';
import { expectPrinted, expectRow } from './digits.ts';

const gas = (density: number, velocity: number, pressure: number, gamma = 1.4): GasState => ({
  density,
  velocity,
  pressure,
  gamma,
});

const fromTemperature = (
  pressure: number,
  temperature: number,
  gamma: number,
  gasConstant: number,
): GasState => gas(pressure / (gasConstant * temperature), 0, pressure, gamma);

/** Wave speeds from left to right, a shock given once. */
function speeds({ left, right }: RiemannSolution): number[] {
  const l = left.kind === 'shock' ? [left.head] : [left.head, left.tail];
  const r = right.kind === 'shock' ? [right.head] : [right.tail, right.head];
  return [...l, ...r];
}

// Problems of Toro, Riemann Solvers and Numerical Methods for Fluid Dynamics, tables 4.1 to 4.3 (inputs from memory);
// star states and speeds to more digits than printed there, computed by a separate program.
const TORO = [
  {
    name: 'Sod',
    l: gas(1, 0, 1),
    r: gas(0.125, 0, 0.1),
    star: '0.303130 0.927453 0.426319 0.265574',
    waves: '-1.183216 -0.070273 1.752156',
  },
  {
    name: 'two rarefactions',
    l: gas(1, -2, 0.4),
    r: gas(1, 2, 0.4),
    star: '0.001894 0.000000 0.021852 0.021852',
    waves: '-2.748331 -0.348331 0.348331 2.748331',
  },
  {
    name: 'blast to the right',
    l: gas(1, 0, 1000),
    r: gas(1, 0, 0.01),
    star: '460.8938 19.59745 0.575062 5.999241',
    waves: '-37.41657 -13.89963 23.51754',
  },
  {
    name: 'blast to the left',
    l: gas(1, 0, 0.01),
    r: gas(1, 0, 100),
    star: '46.09504 -6.196328 5.992417 0.575113',
    waves: '-7.437476 4.396566 11.83216',
  },
  {
    name: 'colliding streams',
    l: gas(5.99924, 19.5975, 460.894),
    r: gas(5.99242, -6.19633, 46.095),
    star: '1691.647 8.689774 14.28235 31.04260',
    waves: '0.789594 12.25078',
  },
  {
    name: 'modified Sod',
    l: gas(1, 0.75, 1),
    r: gas(0.125, 0, 0.1),
    star: '0.466294 1.360906 0.579867 0.339700',
    waves: '-0.433216 0.299871 2.153234',
  },
  {
    name: 'stationary contact',
    l: gas(1, -19.59745, 1000),
    r: gas(1, -19.59745, 0.01),
    star: '460.8938 0.000001 0.575062 5.999241',
    waves: '-57.01402 -33.49708 3.920087',
  },
];

describe('Riemann problem, exact solution: published problems', () => {
  it.each(TORO)('$name', ({ name, l, r, star, waves }) => {
    const solution = solveRiemann(l, r);
    expectRow(
      [solution.pressure, solution.velocity, solution.left.starDensity, solution.right.starDensity],
      star,
      name,
    );
    expectRow(speeds(solution), waves, name);
  });
});

// A port thrown open at full bore; computed by a separate program, derived here.
const PORTS = [
  {
    gamma: 1.4,
    gasConstant: 287,
    l: [1.5, 293],
    r: [1, 293],
    star: '1.221098 49.6833 276.275 310.280',
    waves: '-343.114 -283.494 374.217',
  },
  {
    gamma: 1.4,
    gasConstant: 287,
    l: [2, 293],
    r: [1, 293],
    star: '1.401790 84.9272 264.709 323.045',
    waves: '-343.114 -241.202 397.834',
  },
  {
    gamma: 1.33,
    gasConstant: 290,
    l: [5, 1300],
    r: [1.013, 700],
    star: '2.432891 366.886 1087.225 885.864',
    waves: '-708.103 -280.680 775.550',
  },
] as const;

describe('Riemann problem, exact solution: engine-sized bursts', () => {
  it.each(PORTS)('$l bar, K into $r bar, K', ({ gamma, gasConstant, l, r, star, waves }) => {
    const solution = solveRiemann(
      fromTemperature(l[0] * 1e5, l[1], gamma, gasConstant),
      fromTemperature(r[0] * 1e5, r[1], gamma, gasConstant),
    );
    const temperature = (density: number) => solution.pressure / (density * gasConstant);
    expectRow(
      [
        solution.pressure / 1e5,
        solution.velocity,
        temperature(solution.left.starDensity),
        temperature(solution.right.starDensity),
      ],
      star,
    );
    expectRow(speeds(solution), waves);
  });
});

describe('Riemann problem, identities', () => {
  const pairs: (readonly [string, GasState, GasState])[] = [
    ['one gas', gas(1, 0, 1), gas(0.125, 0, 0.1)],
    ['two gases, hot into cold', gas(0.9, 30, 5e5, 1.28), gas(1.2, 0, 1e5, 1.4)],
    ['two gases, shock to the left', gas(1.2, 0, 1e5, 1.4), gas(0.9, -30, 5e5, 1.28)],
    ['two shocks, two gases', gas(1, 500, 1e5, 1.4), gas(2, -500, 1e5, 1.25)],
  ];

  it.each(pairs)('shocks keep mass, momentum and energy: %s', (_, l, r) => {
    const solution = solveRiemann(l, r);
    let shocks = 0;
    for (const [wave, state] of [
      [solution.left, l],
      [solution.right, r],
    ] as const) {
      if (wave.kind !== 'shock') continue;
      shocks += 1;
      const w1 = state.velocity - wave.head;
      const w2 = solution.velocity - wave.head;
      const enthalpy = (p: number, rho: number) => ((state.gamma / (state.gamma - 1)) * p) / rho;
      const close = (x: number, y: number) => expect(x / y).toBeCloseTo(1, 11);
      close(state.density * w1, wave.starDensity * w2);
      close(state.pressure + state.density * w1 * w1, solution.pressure + wave.starDensity * w2 * w2);
      close(
        enthalpy(state.pressure, state.density) + 0.5 * w1 * w1,
        enthalpy(solution.pressure, wave.starDensity) + 0.5 * w2 * w2,
      );
    }
    expect(shocks).toBeGreaterThan(0);
  });

  it('is its own mirror image', () => {
    const l = gas(1, 0.3, 1, 1.33);
    const r = gas(0.2, -0.1, 0.3, 1.4);
    const turned = (s: GasState) => ({ ...s, velocity: -s.velocity });
    const a = solveRiemann(l, r);
    const b = solveRiemann(turned(r), turned(l));
    expect(b.pressure).toBeCloseTo(a.pressure, 13);
    expect(b.velocity).toBeCloseTo(-a.velocity, 13);
    for (const xi of [-1.4, -0.6, 0.1, 0.9, 1.6]) {
      expect(sampleRiemann(b, -xi).density).toBeCloseTo(sampleRiemann(a, xi).density, 12);
    }
  });

  it('carries entropy and the outer Riemann variable through a fan', () => {
    const l = gas(1, 0, 1);
    const solution = solveRiemann(l, gas(0.125, 0, 0.1));
    for (const share of [0, 0.3, 0.7, 0.999]) {
      const s = sampleRiemann(
        solution,
        solution.left.head + share * (solution.left.tail - solution.left.head),
      );
      expect(s.pressure / s.density ** 1.4).toBeCloseTo(1, 12);
      expect(s.velocity + 5 * Math.sqrt((1.4 * s.pressure) / s.density)).toBeCloseTo(5 * Math.sqrt(1.4), 12);
    }
  });

  it('leaves two equal states alone', () => {
    const s = gas(1.2, 12, 1e5);
    const solution = solveRiemann(s, s);
    expect(solution.pressure).toBeCloseTo(1e5, 6);
    expect(solution.velocity).toBeCloseTo(12, 10);
  });
});

describe('Riemann problem, vacuum', () => {
  it('parts the gases where they flee each other faster than they can follow', () => {
    const a = Math.sqrt(1.4);
    const l = gas(1, -6 * a, 1);
    const r = gas(1, 6 * a, 1);
    const solution = solveRiemann(l, r);
    expect(solution.vacuum).toBe(true);
    expectPrinted(solution.left.tail / a, '-1.000000');
    expect(sampleRiemann(solution, 0)).toMatchObject({ density: 0, pressure: 0 });
    expect(sampleRiemann(solution, -1.5 * a).density).toBeGreaterThan(0);
  });

  it('still finds a pressure just short of parting', () => {
    const a = Math.sqrt(1.4);
    const solution = solveRiemann(gas(1, -4.99 * a, 1), gas(1, 4.99 * a, 1));
    expect(solution.vacuum).toBe(false);
    // Symmetric: a_star = a (1 - 4.99/5), p = (a_star/a)^7.
    expect(solution.pressure / 0.002 ** 7).toBeCloseTo(1, 8);
  });

  it('refuses states that are none', () => {
    expect(() => solveRiemann(gas(0, 0, 1), gas(1, 0, 1))).toThrow(RangeError);
  });
});
