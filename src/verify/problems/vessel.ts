/** A vessel empties through a choked port: the time to half its pressure, and its temperature then. */

import {
  fixedOpening,
  GasModel,
  Network,
  newClock,
  newFlow,
  type PortLink,
  rigidDrive,
  Volume,
} from '../../../solver/index.ts';
import { chokedTime, vesselTemperatureRatio } from '../exact/blow-down.ts';
import type { Measure, Problem } from '../rig/problem.ts';
import { fill, linkOf, reservoirOf, tapered } from '../rig/rig.ts';
import { add, crossing, newTrace, valueAt } from '../rig/traces.ts';

interface Case {
  readonly gamma: number;
  readonly gasConstant: number;
  readonly volume: number;
  readonly area: number;
  readonly temperature: number;
}

const CASES: readonly Case[] = [
  { gamma: 1.4, gasConstant: 287, volume: 1e-3, area: 1e-4, temperature: 300 },
  { gamma: 1.33, gasConstant: 289, volume: 100e-6, area: 4e-4, temperature: 1400 },
];
const PRESSURE = 4e5;
/** Low enough, in a pipe wide enough, that the port stays choked. */
const ROOM = 0.5e5;
const BORE = 0.12;

/** Error of the time and of the temperature; the pipe behind the port has n cells to the metre. */
function error(vessel: Case, cells: number): number {
  const { gamma, gasConstant, volume, area, temperature } = vessel;
  const gas = GasModel.perfectGas(gamma, gasConstant);
  const duct = tapered([{ length: 0.5, diameter: [BORE, BORE] }], 1 / cells, gas);
  fill(duct, () => ({ pressure: ROOM, temperature }));
  const tank = new Volume('vessel', gas, rigidDrive(volume));
  tank.fill(0, PRESSURE, temperature, 0);
  const port: PortLink = {
    kind: 'port',
    end: duct.left,
    volume: tank,
    role: 'plain',
    opening: fixedOpening(area),
    flow: newFlow(),
  };
  const room = reservoirOf(gas, ROOM, temperature);
  const network = new Network([duct], [tank], [port, linkOf(duct, 'right', { open: room })], 0.9);
  const pressure = newTrace();
  const heat = newTrace();
  const still = { gamma, gasConstant, temperature, pressure: PRESSURE };
  const exact = chokedTime({ gas: still, volume, effectiveArea: area }, 0.5);
  while (network.time < 1.1 * exact) {
    tank.decode(newClock(network.time));
    add(pressure, network.time, tank.pressure / PRESSURE);
    add(heat, network.time, tank.temperature[0]! / temperature);
    network.step(1);
  }
  const time = crossing(pressure, 0.5);
  const warmth = valueAt(heat, exact);
  return Math.max(Math.abs(time / exact - 1), Math.abs(warmth / vesselTemperatureRatio(0.5, gamma) - 1));
}

function run(cells: number): Measure {
  return { error: 100 * Math.max(...CASES.map((vessel) => error(vessel, cells))) };
}

export const vesselProblems: readonly Problem[] = [
  {
    name: 'vessel emptying, choked',
    ring: 'exact solution',
    source: 'Shapiro, Compressible Fluid Flow, vol. I, ch. 4',
    quantity: 'time to half pressure, temperature [%]',
    cells: [50, 100, 200],
    judged: 1,
    bound: 0.1,
    run,
  },
];
