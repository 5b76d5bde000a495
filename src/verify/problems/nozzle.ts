/**
 * Steady flow from rest through a converging-diverging nozzle, A/A_t = 1 + 2.2 (x - 1.5)^2 on 0 <= x <= 3, marched until it
 * stands: supersonic to the exit, with a shock in the divergence, and subsonic. The duct is made of as many tapers as cells.
 */

import type { MarchingDuct, Taper } from '../../../solver/index.ts';
import { type NozzleFlow, type NozzleShape, solveNozzle } from '../exact/nozzle.ts';
import type { Measure, Problem } from '../rig/problem.ts';
import { AIR, between, fill, probeAt, reservoirOf, tapered } from '../rig/rig.ts';

const P0 = 2e5;
const T0 = 300;
/** Throat of 10 mm bore; lengths in m as in the source. */
const THROAT = 0.01;

interface Case {
  readonly shape: NozzleShape;
  /** Exit pressure over p0; below the design pressure: supersonic. */
  readonly exit: number;
  readonly until: number;
}

const shape: NozzleShape = { area: (x) => 1 + 2.2 * (x - 1.5) ** 2, from: 0, throat: 1.5, to: 3 };
/** The same with a gentler divergence, which the source uses for the subsonic case. */
const gentle: NozzleShape = { ...shape, area: (x) => 1 + (x < 1.5 ? 2.2 : 0.2223) * (x - 1.5) ** 2 };

function tapersOf({ area, from, to }: NozzleShape, pieces: number): readonly Taper[] {
  const bore = (k: number): number => THROAT * Math.sqrt(area(from + ((to - from) * k) / pieces));
  return Array.from({ length: pieces }, (_, k) => ({
    length: (to - from) / pieces,
    diameter: [bore(k), bore(k + 1)],
  }));
}

function march({ shape: nozzle, exit, until }: Case, cells: number): MarchingDuct {
  const duct = tapered(tapersOf(nozzle, cells), 3 / cells);
  fill(duct, (x) => {
    const pressure = P0 * (1 + (exit - 1) * (x / 3));
    return { pressure, temperature: T0 * (pressure / P0) ** (2 / 7) };
  });
  const before = reservoirOf(AIR, P0, T0);
  const behind = reservoirOf(AIR, P0 * exit, T0);
  between({ open: before }, duct, { open: behind }).marchTo(until);
  duct.decode();
  return duct;
}

/** Place where the pressure passes half way up the shock [m]. */
function shockPlace(duct: MarchingDuct, flow: NozzleFlow): number {
  const at = flow.shockAt as number;
  const half = 0.5 * P0 * (flow.at(at - 1e-9).pressure + flow.at(at + 1e-9).pressure);
  const { cells, dx } = duct.geometry;
  for (let i = cells >> 1; i < cells - 1; i++) {
    const [left, right] = [i, i + 1].map((k) => probeAt(duct, (k + 0.5) * dx).pressure) as [number, number];
    if (left < half && right >= half) return (i + 0.5 + (half - left) / (right - left)) * dx;
  }
  return Number.NaN;
}

const known = new Map<string, MarchingDuct>();

function marched(name: string, nozzle: Case, cells: number): MarchingDuct {
  const key = `${name} ${cells}`;
  const duct = known.get(key) ?? march(nozzle, cells);
  known.set(key, duct);
  return duct;
}

/** Largest error of the pressure, three cells around a shock left out [% of the local pressure]. */
function pressures(name: string, nozzle: Case, cells: number): Measure {
  const duct = marched(name, nozzle, cells);
  const flow = solveNozzle(nozzle.shape, nozzle.exit, 1.4);
  const { dx } = duct.geometry;
  const x = Array.from({ length: cells }, (_, i) => (i + 0.5) * dx);
  const got = x.map((place) => probeAt(duct, place).pressure / P0);
  const exact = x.map((place) => flow.at(place).pressure);
  const errors = x.map((place, i) =>
    flow.shockAt !== null && Math.abs(place - flow.shockAt) < 3 * dx ? 0 : Math.abs(got[i]! / exact[i]! - 1),
  );
  return {
    error: 100 * Math.max(...errors),
    comparison: {
      title: `Nozzle, ${name}`,
      read:
        flow.shockAt === null
          ? 'The pressure falls to the throat and beyond.'
          : 'The shock stands behind the throat.',
      xName: 'position [m]',
      yName: 'pressure [p0]',
      computed: { x, y: got },
      exact: { x, y: exact },
    },
  };
}

function place(name: string, nozzle: Case, cells: number): Measure {
  const duct = marched(name, nozzle, cells);
  const flow = solveNozzle(nozzle.shape, nozzle.exit, 1.4);
  return { error: Math.abs(shockPlace(duct, flow) - (flow.shockAt as number)) / duct.geometry.dx };
}

const SUPERSONIC: Case = { shape, exit: 0.005, until: 0.06 };
const SHOCK: Case = { shape, exit: 0.6784, until: 0.3 };
const SUBSONIC: Case = { shape: gentle, exit: 0.93, until: 0.3 };

const about = {
  ring: 'exact solution',
  source: 'Anderson, Computational Fluid Dynamics, ch. 7, from memory',
  cells: [75, 150, 300],
  judged: 1,
} as const;

function pressureProblem(name: string, nozzle: Case): Problem {
  return {
    ...about,
    name: `nozzle, ${name}`,
    quantity: 'pressure [% of the local]',
    bound: 0.5,
    run: (n) => pressures(name, nozzle, n),
  };
}

export const nozzleProblems: readonly Problem[] = [
  pressureProblem('supersonic', SUPERSONIC),
  pressureProblem('with a shock', SHOCK),
  {
    ...about,
    name: 'nozzle, place of the shock',
    quantity: 'place of the shock [cells]',
    bound: 1,
    run: (n) => place('with a shock', SHOCK, n),
  },
  pressureProblem('subsonic', SUBSONIC),
];
