/** A step of the mesh method boxes no number for a cell. In a process of its own, on the built solver. */

import { execFileSync } from 'node:child_process';
import { expect, test } from 'vitest';

const solver = new URL('../../../dist/solver/index.js', import.meta.url).href;

/** Prints the bytes of heap that a step uses, and those that stay after a sweep. */
const SCRIPT = `
import { GasModel, meshTapers, TextbookDuct, Network } from '${solver}';
const gas = process.argv[1] === 'perfect' ? GasModel.perfectGas(1.4, 287) : GasModel.charge(1.85, 1.1);
const duct = new TextbookDuct('duct', gas, meshTapers([{ length: 2, diameter: [0.04, 0.08] }], 1000));
for (let i = 0; i < 1000; i++) duct.setCell(i, 1e5 * (1 + 0.5 * Math.exp(-(((i - 300) / 80) ** 2))), 500);
const links = [duct.left, duct.right].map((end) => ({ kind: 'closed', end }));
const network = new Network([duct], [], links, 0.8);
const steps = (n) => { for (let i = 0; i < n; i++) network.step(1); };
// The compiler works in the background and has a heap of its own: the best of several windows.
let used = Infinity;
let kept = Infinity;
for (let window = 0; window < 12; window++) {
  globalThis.gc();
  const before = process.memoryUsage().heapUsed;
  steps(500);
  used = Math.min(used, (process.memoryUsage().heapUsed - before) / 500);
  globalThis.gc();
  kept = Math.min(kept, (process.memoryUsage().heapUsed - before) / 500);
}
console.log(JSON.stringify({ used, kept }));
`;

test.each(['perfect', 'blend'])('%s gas', (gas) => {
  const flags = [
    '--expose-gc',
    '--min-semi-space-size=64',
    '--max-semi-space-size=128',
    '--input-type=module',
  ];
  const printed = execFileSync(process.execPath, [...flags, '--eval', SCRIPT, gas], { encoding: 'utf8' });
  const { used, kept } = JSON.parse(printed) as { used: number; kept: number };
  // One boxed number a cell would be 12 kB; the two ends hand numbers from function to function.
  expect(used).toBeLessThan(6000);
  expect(kept).toBeLessThan(8);
});
