/**
 * The two-lane kernel in a page opened from disk, and in a worker made from a Blob as a page from disk has to make it: it is
 * there, and marches a tube to the same pressures as here. Ring: identity.
 */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { GasModel, hasTwoLanes, meshTapers, Network, newDuct } from '../../solver/index.ts';
import { type Bench, hasBrowser, openBrowser, openFile } from './browser.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Runs there and here; what it needs is handed in. */
function pressures(solver: {
  GasModel: typeof GasModel;
  meshTapers: typeof meshTapers;
  Network: typeof Network;
  newDuct: typeof newDuct;
}): number[] {
  const gas = solver.GasModel.charge(1.9, 1.1);
  const geometry = solver.meshTapers([{ length: 0.4, diameter: [0.03, 0.06] }], 40);
  const losses = { friction: true, heat: 'pulsating', roughness: 2e-5 } as const;
  const duct = solver.newDuct('conservative', 'tube', gas, geometry, losses, true, 'two-lane');
  for (let i = 0; i < 40; i++) duct.setCell(i, i < 12 ? 3e5 : 1e5, 400 + 5 * i, 0, i / 40);
  const links = [
    { kind: 'closed', end: duct.left },
    { kind: 'closed', end: duct.right },
  ] as const;
  const network = new solver.Network([duct], [], links, 0.8);
  for (let step = 0; step < 100; step++) network.step(1);
  return Array.from(duct.fields().p.subarray(2, 42));
}

describe.skipIf(!hasTwoLanes() || !hasBrowser)('the two-lane kernel from disk', () => {
  let bench: Bench;
  let script = '';
  beforeAll(async () => {
    bench = await openBrowser();
    const bundle = await build({
      stdin: {
        contents: `import * as solver from './solver/index.ts'; globalThis.answer = (${pressures})(solver);`,
        resolveDir: root,
        loader: 'ts',
      },
      bundle: true,
      write: false,
      format: 'iife',
      target: 'es2022',
    });
    script = bundle.outputFiles[0]!.text;
  });
  afterAll(async () => bench.close());

  const opened = async (name: string, body: string): Promise<readonly number[]> => {
    const file = join(bench.folder, `${name}.html`);
    writeFileSync(
      file,
      `<!doctype html><meta charset="utf-8"><link rel="icon" href="data:,"><script>${body}</script>`,
    );
    const { page, complaints } = await openFile(bench, file);
    const handle = await page.waitForFunction(() => (globalThis as { answer?: number[] }).answer);
    expect(complaints).toEqual([]);
    return (await handle.jsonValue()) as number[];
  };

  test.each(['page', 'worker'])('in a %s', async (where) => {
    const answer = await opened(
      where,
      where === 'page'
        ? script
        : `const made = new Worker(URL.createObjectURL(new Blob([${JSON.stringify(`${script}\npostMessage(answer);`).replaceAll('<', '\\u003c')}])));
           made.onmessage = ({ data }) => { globalThis.answer = data; };`,
    );
    const here = pressures({ GasModel, meshTapers, Network, newDuct });
    expect(answer).toHaveLength(40);
    // The browser's own powers, in the ends, may differ from Node's in the last digit.
    for (const [k, value] of answer.entries()) expect(Math.abs(value / here[k]! - 1)).toBeLessThan(1e-11);
  });
});
