/**
 * The cells of a network's ducts as a tree: neighbours in a duct, and the cells on both sides of a link between ducts.
 * Every cell but a root has one parent; a link that would close a ring is left out, and of a junction each branch is
 * joined to the first.
 */

import type { MarchingDuct } from '../duct/duct.ts';
import type { DuctEnd } from '../duct/duct-end.ts';
import type { Link } from './link.ts';

export interface MixingTree {
  /** First cell of each duct; cells are numbered through the ducts. */
  readonly first: Int32Array;
  readonly cells: number;
  /** Cells with every parent before its children. */
  readonly order: Int32Array;
  /** Parent of each cell, -1 for a root. */
  readonly parent: Int32Array;
  /** Area over distance of the way to the parent [m]; 1 where both lie in one duct. */
  readonly conductance: Float64Array;
  readonly inside: Uint8Array;
}

interface Edge {
  readonly to: number;
  readonly conductance: number;
  readonly inside: boolean;
}

/** Builds the tree of the ducts that mix. */
export function mixingTree(ducts: readonly MarchingDuct[], links: readonly Link[]): MixingTree {
  const first = new Int32Array(ducts.length);
  let cells = 0;
  ducts.forEach((duct, d) => {
    first[d] = cells;
    cells += duct.geometry.cells;
  });
  const edges: Edge[][] = Array.from({ length: cells }, () => []);
  const join = (a: number, b: number, conductance: number, inside: boolean): void => {
    edges[a].push({ to: b, conductance, inside });
    edges[b].push({ to: a, conductance, inside });
  };
  ducts.forEach((duct, d) => {
    const { faceArea, dx } = duct.geometry;
    for (let j = 1; j < duct.geometry.cells; j++)
      join(first[d] + j - 1, first[d] + j, faceArea[j] / dx, true);
  });
  for (const [one, other] of joined(links)) {
    const a = ducts.findIndex((duct) => duct.left === one || duct.right === one);
    const b = ducts.findIndex((duct) => duct.left === other || duct.right === other);
    if (a < 0 || b < 0 || a === b) continue;
    const cellAt = (d: number, end: DuctEnd): number =>
      ducts[d].left === end ? first[d] : first[d] + ducts[d].geometry.cells - 1;
    const distance = 0.5 * (ducts[a].geometry.dx + ducts[b].geometry.dx);
    join(cellAt(a, one), cellAt(b, other), Math.min(one.area, other.area) / distance, false);
  }
  return { first, cells, ...walk(edges) };
}

/** Pairs of duct ends between which gas mixes. */
function joined(links: readonly Link[]): readonly (readonly [DuctEnd, DuctEnd])[] {
  return links.flatMap((link): readonly (readonly [DuctEnd, DuctEnd])[] => {
    if (link.kind === 'step') return [[link.first, link.second]];
    if (link.kind !== 'junction') return [];
    const [hub, ...branches] = link.ends;
    return branches.map((branch) => [hub, branch]);
  });
}

function walk(
  edges: readonly (readonly Edge[])[],
): Pick<MixingTree, 'order' | 'parent' | 'conductance' | 'inside'> {
  const cells = edges.length;
  const order = new Int32Array(cells);
  const parent = new Int32Array(cells).fill(-2);
  const conductance = new Float64Array(cells);
  const inside = new Uint8Array(cells);
  let found = 0;
  for (let root = 0; root < cells; root++) {
    if (parent[root] !== -2) continue;
    parent[root] = -1;
    order[found++] = root;
    for (let at = found - 1; at < found; at++) {
      for (const edge of edges[order[at]]) {
        if (parent[edge.to] !== -2) continue;
        parent[edge.to] = order[at];
        conductance[edge.to] = edge.conductance;
        inside[edge.to] = edge.inside ? 1 : 0;
        order[found++] = edge.to;
      }
    }
  }
  return { order, parent, conductance, inside };
}
