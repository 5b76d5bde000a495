/**
 * Steady flow through a long plain duct from Mach number 0.3 to 0.7: with a constant friction factor and no heat (Fanno), and
 * with heat at an even rate and no friction (Rayleigh). Marched until it stands; the Mach number is compared all along.
 */

import type { MarchingDuct, Scheme } from '../../../solver/index.ts';
import { fannoFlow, machBeforeChoking } from '../exact/fanno.ts';
import { isentropicFlow } from '../exact/isentropic.ts';
import { machOfTotalTemperature, rayleighFlow } from '../exact/rayleigh.ts';
import type { Measure, Problem } from '../rig/problem.ts';
import { AIR, between, byScheme, fill, probeAt, reservoirOf, straight } from '../rig/rig.ts';

const P0 = 2e5;
const T0 = 300;
const ENTRY = 0.3;
const EXIT = 0.7;
const LENGTH = 1;
const GAS_CONSTANT = 287;
const CP = 3.5 * GAS_CONSTANT;

function machAt(duct: MarchingDuct, x: number): number {
  const { velocity, temperature } = probeAt(duct, x);
  return velocity / Math.sqrt(1.4 * GAS_CONSTANT * temperature);
}

/** Marches from near the exact flow to the steady one, and compares the Mach numbers [%]. */
function compare(
  duct: MarchingDuct,
  mach: (x: number) => number,
  pressure: (x: number) => number,
  temperature: (x: number) => number,
  title: string,
): Measure {
  fill(duct, (x) => ({
    pressure: pressure(x),
    temperature: temperature(x),
    velocity: 0.9 * mach(x) * Math.sqrt(1.4 * GAS_CONSTANT * temperature(x)),
  }));
  const before = reservoirOf(AIR, P0, T0);
  const behind = reservoirOf(AIR, pressure(LENGTH), T0);
  between({ open: before }, duct, { open: behind }).marchTo(0.25);
  duct.decode();
  const { cells, dx } = duct.geometry;
  const x = Array.from({ length: cells }, (_, i) => (i + 0.5) * dx);
  const got = x.map((place) => machAt(duct, place));
  const exact = x.map(mach);
  return {
    error: 100 * Math.max(...got.map((value, i) => Math.abs(value / exact[i]! - 1))),
    comparison: {
      title,
      read: 'The flow speeds up towards the exit.',
      xName: 'position [m]',
      yName: 'Mach number [-]',
      computed: { x, y: got },
      exact: { x, y: exact },
    },
  };
}

function fanno(scheme: Scheme, cells: number): Measure {
  const way = fannoFlow(ENTRY, 1.4).lengthToChoking;
  const passed = way - fannoFlow(EXIT, 1.4).lengthToChoking;
  const duct = straight(LENGTH, cells, AIR, scheme);
  // 4 f L/D = passed and G = (4 f/D) u|u|/2.
  duct.frictionOverD.fill(passed / LENGTH / 2);
  const mach = (x: number): number => machBeforeChoking(way - (passed * x) / LENGTH, 1.4);
  const entry = isentropicFlow(ENTRY, 1.4).pressure * P0;
  const pressure = (x: number): number =>
    (entry * fannoFlow(mach(x), 1.4).pressure) / fannoFlow(ENTRY, 1.4).pressure;
  const temperature = (x: number): number => T0 * isentropicFlow(mach(x), 1.4).temperature;
  return compare(duct, mach, pressure, temperature, `Flow with friction in a long duct${byScheme(scheme)}`);
}

function rayleigh(scheme: Scheme, cells: number): Measure {
  const from = rayleighFlow(ENTRY, 1.4);
  const to = rayleighFlow(EXIT, 1.4);
  const duct = straight(LENGTH, cells, AIR, scheme);
  const entryTemperature = T0 * isentropicFlow(ENTRY, 1.4).temperature;
  const entry = P0 * isentropicFlow(ENTRY, 1.4).pressure;
  const flux = entry * ENTRY * Math.sqrt(1.4 / (GAS_CONSTANT * entryTemperature));
  const rise = T0 * (to.totalTemperature / from.totalTemperature - 1);
  // A wall so hot that the gas's own temperature does not matter gives heat at an even rate.
  const hot = 1e12;
  duct.heatOverD.fill((flux * CP * rise) / LENGTH / hot);
  duct.wallTemperature.fill(hot);
  const total = (x: number): number => T0 + (rise * x) / LENGTH;
  const mach = (x: number): number => machOfTotalTemperature((from.totalTemperature * total(x)) / T0, 1.4);
  const pressure = (x: number): number => (entry * rayleighFlow(mach(x), 1.4).pressure) / from.pressure;
  const temperature = (x: number): number => total(x) * isentropicFlow(mach(x), 1.4).temperature;
  return compare(duct, mach, pressure, temperature, `Flow with heat in a long duct${byScheme(scheme)}`);
}

const about = {
  ring: 'exact solution',
  source: 'Fanno and Rayleigh flow: Shapiro, Compressible Fluid Flow, vol. I, ch. 6 and 7, from memory',
  quantity: 'Mach number all along [%]',
  cells: [25, 50, 100],
  judged: 1,
  bound: 0.2,
} as const;

export const longDuctProblems: readonly Problem[] = [
  { ...about, name: 'friction in a long duct', run: (n) => fanno('conservative', n) },
  { ...about, name: 'heat in a long duct', run: (n) => rayleigh('conservative', n) },
  { ...about, name: 'volumes: friction in a duct', run: (n) => fanno('finite-volume', n) },
  { ...about, name: 'volumes: heat in a duct', run: (n) => rayleigh('finite-volume', n) },
  { ...about, name: 'mesh: friction in a duct', run: (n) => fanno('mesh', n) },
  { ...about, name: 'mesh: heat in a duct', run: (n) => rayleigh('mesh', n) },
];
