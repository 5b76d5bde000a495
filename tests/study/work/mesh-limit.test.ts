/** Ring: identity. A mesh beyond the limit is refused before the work begins, with its size and the code of a wrong case. */

import { expect, test } from 'vitest';
import { loadCase } from '../../../src/case/load.ts';
import { MOST_CELLS } from '../../../src/pipe/cells.ts';
import { meshProblem, refuseHugeMesh } from '../../../src/study/work/mesh-limit.ts';

const read = loadCase(new URL('../../case/drafts/saltmarsh-125/draft-a.yaml', import.meta.url).pathname);
const at = (cell: number) => ({ ...read, run: { ...read.run, cell } });

test('the finest mesh that is taken has no more cells than the limit, the next is refused in words', () => {
  // Ducts of the demo, intake and passage included, are between one and two metres long.
  const finest = Array.from({ length: 400 }, (_, k) => 2e-4 - k * 5e-7).find(
    (cell) => meshProblem(at(cell)) !== null,
  );
  expect(finest).toBeGreaterThan(1 / MOST_CELLS);
  expect(finest).toBeLessThan(2 / MOST_CELLS);
  expect(meshProblem(at(1.01 * finest!))).toBeNull();
  expect(meshProblem(at(finest!))).toMatch(
    /^The mesh would have 2\d{4} cells; at most 20000 are taken\..*--cell\.$/,
  );
  expect(() => refuseHugeMesh(at(finest!))).toThrow(expect.objectContaining({ exitCode: 3 }));
  expect(() => refuseHugeMesh(at(5e-3))).not.toThrow();
});
