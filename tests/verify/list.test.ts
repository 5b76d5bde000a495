/** Ring: identity. The list of the problems that DEVELOPERS.md points to is the one that runs. */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { problems } from '../../src/verify/problem-list.ts';

const root = new URL('../../', import.meta.url).pathname;

function listText(): string {
  const rows = problems.map((one) => {
    const meshes =
      one.cells.length > 1 ? one.cells.map((n, i) => (i === one.judged ? `**${n}**` : n)).join(', ') : '-';
    const order = one.order === undefined ? '' : one.order;
    const cells = [one.name, one.ring, one.source, one.quantity, meshes, one.bound, order];
    return `| ${cells.map((cell) => String(cell).replaceAll('|', '/')).join(' | ')} |`;
  });
  return [
    '# Problems with known answers',
    '',
    'What `echocone verify` solves, written by the tests from the code. The bound is for the mesh in bold; where the order',
    'of convergence is a claim too, the least observed one is given.',
    '',
    '| problem | ring | source | error of what | cells | bound | order |',
    '| --- | --- | --- | --- | --- | --- | --- |',
    ...rows,
    '',
  ].join('\n');
}

describe('the list of problems', () => {
  test('is what runs', async () => {
    await expect(listText()).toMatchFileSnapshot(`${root}tests/PROBLEMS.md`);
  });

  test('names a ring and a source for each, and no problem twice', () => {
    const rings = ['identity', 'exact solution', 'observed order', 'conservation', 'regression'];
    for (const { ring, source, bound } of problems) {
      expect(rings).toContain(ring);
      expect(source.length).toBeGreaterThan(5);
      expect(bound).toBeGreaterThan(0);
    }
    expect(new Set(problems.map(({ name }) => name)).size).toBe(problems.length);
  });

  test('uses sources that DEVELOPERS.md explains', () => {
    const text = readFileSync(`${root}DEVELOPERS.md`, 'utf8');
    for (const name of ['Benson', 'Blair', 'Munjal', 'NACA', 'Toro', 'McBride', 'Heywood', 'Levine'])
      if (problems.some(({ source }) => source.includes(name))) expect(text).toContain(name);
  });
});
