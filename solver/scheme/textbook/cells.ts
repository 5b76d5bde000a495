/**
 * Between cells and nodes. Cells that are set from outside give the nodes on their faces the mean of density, pressure,
 * velocity and burnt fraction of the two cells that meet there, with the cubic's correction where all is smooth: a jump
 * between two cells stays one node wide and in its place. Integrals take the densities as parabolas between nodes,
 * weighted with the exact cell volumes:
 *   V [ (q0 + q1)/2 - (d0 + d1)/24 ] + (F1 - F0)(q1 - q0) dx/12,   d the second differences.
 */

import { square } from '../../arithmetic/functions.ts';
import { bends, hold } from './interpolation.ts';
import type { TextbookState } from './textbook-state.ts';

/** Quantities of the cells, as far as they were set. */
export class CellValues {
  readonly pressure: Float64Array;
  readonly density: Float64Array;
  readonly velocity: Float64Array;
  readonly burnt: Float64Array;
  private readonly given: Uint8Array;
  any = false;

  constructor(cells: number) {
    this.pressure = new Float64Array(cells);
    this.density = new Float64Array(cells);
    this.velocity = new Float64Array(cells);
    this.burnt = new Float64Array(cells);
    this.given = new Uint8Array(cells);
  }

  set(
    duct: TextbookState,
    i: number,
    pressure: number,
    temperature: number,
    velocity: number,
    burnt: number,
  ): void {
    if (!this.any) this.readNodes(duct);
    this.any = true;
    this.given[i] = 1;
    this.pressure[i] = pressure;
    this.density[i] = pressure / (duct.gas.gasConstant(burnt) * temperature);
    this.velocity[i] = velocity;
    this.burnt[i] = burnt;
  }

  /** Gives the nodes of the cells that were set their values. */
  settle(duct: TextbookState): void {
    const { given } = this;
    const n = duct.cells;
    const [pressure, density, velocity, burnt] = [this.pressure, this.density, this.velocity, this.burnt].map(
      onFaces,
    );
    for (let j = 0; j <= n; j++) {
      if (!((j > 0 && given[j - 1] === 1) || (j < n && given[j] === 1))) continue;
      const temperature = pressure[j] / (density[j] * duct.gas.gasConstant(burnt[j]));
      duct.setNode(j, pressure[j], temperature, velocity[j], burnt[j]);
    }
    given.fill(0);
    this.any = false;
    duct.now.leftEnd.fill(0);
    duct.now.rightEnd.fill(0);
  }

  private readNodes(duct: TextbookState): void {
    const { X, u, A, y } = duct.now;
    if (!(X[0] > 0)) return;
    for (let i = 0; i < duct.cells; i++) {
      const x = 0.5 * (X[i] + X[i + 1]);
      const burnt = 0.5 * (y[i] + y[i + 1]);
      this.pressure[i] = duct.pressureOf(x);
      this.density[i] = this.pressure[i] / square(0.5 * x * (A[i] + A[i + 1]));
      this.velocity[i] = 0.5 * (u[i] + u[i + 1]);
      this.burnt[i] = burnt;
    }
  }
}

/** Values on the faces of cells with values at their centres. */
function onFaces(q: Float64Array): Float64Array {
  const n = q.length;
  const bend = new Float64Array(n);
  bends(q, bend, n - 1);
  const faces = new Float64Array(n + 1);
  faces[0] = beyond(q[0], q[1], bend[1]);
  faces[n] = beyond(q[n - 1], q[n - 2], bend[n - 2]);
  for (let j = 1; j < n; j++) {
    const mean = 0.5 * (q[j - 1] + q[j]);
    const d0 = bend[j - 1];
    const d1 = bend[j];
    // A jump bends one way on its one side and the other way on the other.
    const jump = d0 * d1 < 0 && Math.abs(d0 - d1) > 0.5 * Math.abs(q[j] - q[j - 1]);
    faces[j] = jump ? mean : mean - (d0 + d1) / 16;
    if ((faces[j] - q[j - 1]) * (q[j] - faces[j]) < 0) hold(faces, j, q, bend, j - 1);
  }
  return faces;
}

/** Half a cell beyond the last centre, where the field is smooth. */
function beyond(edge: number, inner: number, bend: number): number {
  const step = edge - inner;
  return Math.abs(bend) < 0.5 * Math.abs(step) ? edge + 0.5 * step + 0.375 * bend : edge;
}

/** Integral over the duct of a quantity per volume given at the nodes. */
export function integral(duct: TextbookState, q: Float64Array): number {
  const { volume, faceArea } = duct.geometry;
  const { cells, dx } = duct;
  let sum = 0;
  for (let i = 0; i < cells; i++) {
    const d0 = secondDifference(q, i, cells);
    const d1 = secondDifference(q, i + 1, cells);
    const mean = 0.5 * (q[i] + q[i + 1]) - (d0 + d1) / 24;
    sum += volume[i] * mean + ((faceArea[i + 1] - faceArea[i]) * (q[i + 1] - q[i]) * dx) / 12;
  }
  return sum;
}

function secondDifference(q: Float64Array, j: number, cells: number): number {
  const i = j === 0 ? 1 : j === cells ? cells - 1 : j;
  return q[i - 1] - 2 * q[i] + q[i + 1];
}
