// How fast the built solver marches: nanoseconds per cell and step of a bare duct of either scheme and either
// form of the kernel, and of the demo engine.

import { GasModel, meshTapers, Network, newDuct } from '../../dist/solver/index.js';

const CELLS = 400;
const WARM_UP = 3000;
const STEPS = 3000;
const ROUNDS = 7;

export function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle] : 0.5 * (sorted[middle - 1] + sorted[middle]);
}

/** A closed tube of a perfect gas in which waves of some tenths of a bar run to and fro; ns per cell and step. */
export function bareDuct(scheme, kernel = 'plain') {
  const gas = GasModel.perfectGas(1.4, 287);
  const geometry = meshTapers([{ length: 2, diameter: [0.04, 0.04] }], CELLS);
  const tube = newDuct(scheme, 'tube', gas, geometry, undefined, true, kernel);
  for (let i = 0; i < CELLS; i++) {
    const x = (i + 0.5) / CELLS;
    tube.setCell(i, 1e5 * (1 + 0.3 * Math.exp(-(((x - 0.3) / 0.05) ** 2))), 400 + 60 * Math.sin(4 * x), 0);
  }
  const links = [
    { kind: 'closed', end: tube.left },
    { kind: 'closed', end: tube.right },
  ];
  const network = new Network([tube], [], links, 0.8);
  const march = (steps) => {
    const start = process.hrtime.bigint();
    for (let step = 0; step < steps; step++) network.step(1);
    return Number(process.hrtime.bigint() - start) / (steps * CELLS);
  };
  march(WARM_UP);
  return median(Array.from({ length: ROUNDS }, () => march(STEPS)));
}

/** The demo engine with everything on, at one speed: ns per cell and step, steps a cycle, cells. */
export async function demoEngine(caseFile, rpm, kernel = 'plain') {
  const { loadCase } = await import('../../dist/src/case/load.js');
  const { buildEngine } = await import('../../dist/src/engine/build.js');
  const { startCold } = await import('../../dist/src/engine/run/state.js');
  const { marchCycle } = await import('../../dist/src/engine/run/cycle.js');
  const loaded = loadCase(caseFile);
  const subject = { ...loaded, run: { ...loaded.run, kernel } };
  const engine = buildEngine(subject, rpm, subject.run.cell);
  startCold(engine);
  const cells = engine.network.ducts.reduce((sum, duct) => sum + duct.geometry.cells, 0);
  const rates = [];
  let steps = 0;
  for (let cycle = 0; cycle < 10; cycle++) {
    const start = process.hrtime.bigint();
    steps = marchCycle(engine, null).steps;
    rates.push(Number(process.hrtime.bigint() - start) / (steps * cells));
  }
  // The first cycles warm the compiler up.
  return { nsPerCellStep: median(rates.slice(3)), stepsPerCycle: steps, cells };
}
