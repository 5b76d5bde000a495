// Marches a bare duct of either form of the kernel or of finite volumes, or a rig with every kind of link, on the built solver and prints the bytes
// of heap that a step uses and that stay after it.

import {
  CLOCK,
  cellsFor,
  fixedOpening,
  GasModel,
  meshTapers,
  Network,
  newDuct,
  newFlow,
  newReservoir,
  ReedValve,
  rigidDrive,
  setReservoir,
  ThreeWayStream,
  Volume,
} from '../../dist/solver/index.js';
import { heapOfSteps } from './heap-of-steps.mjs';

const bare = process.argv[3] === 'bare';
const scheme = process.argv[4] === 'finite-volume' ? 'finite-volume' : 'conservative';
const kernel = scheme === 'conservative' ? process.argv[4] : 'plain';
const gas = process.argv[2] === 'perfect' ? GasModel.perfectGas(1.35, 287) : GasModel.charge(1.85, 1.1);
const losses = { friction: true, heat: 'pulsating', roughness: 20e-6 };
const made = (name, ...tapers) =>
  newDuct(
    scheme,
    name,
    gas,
    meshTapers(
      tapers,
      cellsFor(
        tapers.reduce((sum, t) => sum + t.length, 0),
        5e-3,
      ),
    ),
    losses,
    true,
    kernel,
  );
const header = made('header', { length: 0.3, diameter: [0.038, 0.041] });
const chamber = made(
  'chamber',
  { length: 0.3, diameter: [0.06, 0.1] },
  { length: 0.2, diameter: [0.1, 0.03] },
);
const stinger = made('stinger', { length: 0.2, diameter: [0.022, 0.022] });
const resonator = made('resonator', { length: 0.2, diameter: [0.02, 0.02] });
const tract = made('tract', { length: 0.15, diameter: [0.04, 0.036] });
const hose = made('hose', { length: 0.15, diameter: [0.03, 0.03] });
const ducts = [header, chamber, stinger, resonator, tract, hose];
for (const duct of ducts)
  for (let i = 0; i < duct.geometry.cells; i++) duct.setCell(i, 101325, 500, 0, gas.perfect ? 0 : 0.5);
const cylinder = new Volume(
  'cylinder',
  gas,
  rigidDrive(150e-6),
  new ThreeWayStream({ displacement: 0.4, shortCircuit: 0.1 }),
);
const crankcase = new Volume('crankcase', gas, rigidDrive(400e-6));
cylinder.fill(0, 5e5, 1400, gas.perfect ? 0 : 1);
crankcase.fill(0, 1.4e5, 330, 0);
const air = newReservoir();
setReservoir(air, gas, 101325, 300, 0);
const reed = new ReedValve({
  count: 6,
  width: 0.02,
  length: 0.036,
  thickness: 0.4e-3,
  density: 1550,
  modulus: 60e9,
  stop: 8e-3,
  damping: 0.05,
  openSides: 1,
  cageArea: 9e-4,
  discharge: 0.7,
});
const port = (end, volume, role, opening) => ({ kind: 'port', end, volume, role, opening, flow: newFlow() });
const links = [
  port(header.left, cylinder, 'swept', fixedOpening(6e-4)),
  { kind: 'step', first: header.right, second: chamber.left, contraction: 0.7 },
  { kind: 'junction', ends: [chamber.right, stinger.left, resonator.left] },
  { kind: 'closed', end: resonator.right },
  { kind: 'atmosphere', end: stinger.right, reservoir: air, share: 1, flow: newFlow() },
  {
    kind: 'passage',
    from: crankcase,
    to: cylinder,
    toRole: 'sweeping',
    opening: fixedOpening(5e-4),
    inertance: 100,
    column: new Float64Array(2),
    flow: newFlow(),
  },
  port(tract.right, crankcase, 'plain', reed),
  { kind: 'nonreflecting', end: tract.left, reservoir: air, incident: () => 1.05e5, flow: newFlow() },
  { kind: 'atmosphere', end: hose.left, reservoir: air, share: 0.4, flow: newFlow() },
  {
    kind: 'nonreflecting',
    end: hose.right,
    reservoir: air,
    incident: (t) => 101325 + 2e4 * Math.sin(3e3 * t),
    flow: newFlow(),
  },
];
const closed = (end) => ({ kind: 'closed', end });
const tube = made('tube', { length: 2, diameter: [0.04, 0.06] });
for (let i = 0; i < tube.geometry.cells; i++)
  tube.setCell(i, i < 150 ? 3e5 : 1e5, i < 150 ? 900 : 400, 0, gas.perfect ? 0 : i / 400);
const network = bare
  ? new Network([tube], [], [closed(tube.left), closed(tube.right)], 0.8)
  : new Network(ducts, [cylinder, crankcase], links, 0.8);

const cells = (bare ? [tube] : ducts).reduce((sum, duct) => sum + duct.geometry.cells, 0);
network.clock[CLOCK.limit] = 1;
const march = (steps) => {
  for (let step = 0; step < steps; step++) network.advance();
};
console.log(JSON.stringify({ ...heapOfSteps(march), cells }));
