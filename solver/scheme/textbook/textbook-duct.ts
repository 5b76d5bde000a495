/**
 * A duct marched by the textbook's mesh method of characteristics: a second opinion beside the conservative method, on the
 * same ducts and ends. Nothing in it conserves mass or energy: in smooth flow its balances close with the third power of dx,
 * across a shock they do not close at all, because the relations it solves hold u +- cX and the entropy instead.
 */

import { square } from '../../arithmetic/functions.ts';
import type { CellFields, MarchingDuct } from '../../duct/duct.ts';
import type { DuctGeometry } from '../../duct/geometry.ts';
import type { WallLosses } from '../../duct/wall-losses.ts';
import type { GasModel } from '../../gas/gas-model.ts';
import { CLOCK, type Clock } from '../../march/clock.ts';
import { CellValues, integral } from './cells.ts';
import { march, prepare } from './characteristics.ts';
import { arriveAt, finishAt, settleNode } from './ends.ts';
import { between } from './interpolation.ts';
import { refreshNodeLosses, toNodes } from './node-losses.ts';
import { isPhysicalNode, refresh } from './refresh.ts';
import { rates } from './sources.ts';
import { TextbookState } from './textbook-state.ts';

export class TextbookDuct extends TextbookState implements MarchingDuct {
  private readonly cellValues: CellValues;
  private readonly perVolume: Float64Array;
  /** The end nodes before the step made them good, for a step that is rejected. */
  private readonly endsBefore = new Float64Array(8);
  private readonly cellFields: CellFields;

  constructor(name: string, gas: GasModel, geometry: DuctGeometry, losses?: WallLosses, mixed = true) {
    super(name, gas, geometry, losses, mixed);
    this.cellValues = new CellValues(geometry.cells);
    this.perVolume = new Float64Array(geometry.cells + 1);
    const cell = (): Float64Array => new Float64Array(geometry.cells);
    this.cellFields = { offset: 0, p: cell(), u: cell(), a: cell(), T: cell(), y: cell() };
  }

  setCell(i: number, pressure: number, temperature: number, velocity = 0, burnt = 0): void {
    this.cellValues.set(this, i, pressure, temperature, velocity, burnt);
  }

  decode(): number {
    if (this.cellValues.any) this.cellValues.settle(this);
    return this.dx / refresh(this);
  }

  arrive(clock: Clock): void {
    const dt = clock[CLOCK.dt];
    if (this.lossy) rates(this);
    prepare(this);
    arriveAt(this, this.left, dt);
    arriveAt(this, this.right, dt);
  }

  finish(clock: Clock): number {
    const dt = clock[CLOCK.dt];
    this.keepEnds();
    settleNode(this, this.left, dt);
    settleNode(this, this.right, dt);
    prepare(this);
    march(this, dt);
    finishAt(this, this.left, dt);
    finishAt(this, this.right, dt);
    return this.lossy ? this.wallHeat() * dt : 0;
  }

  accept(): void {
    const { now } = this;
    this.now = this.next;
    this.next = now;
  }

  reject(): void {
    this.accept();
    const { endsBefore, now, cells } = this;
    [now.X, now.u, now.A, now.y].forEach((q, field) => {
      q[0] = endsBefore[2 * field];
      q[cells] = endsBefore[2 * field + 1];
    });
  }

  giveShapeLosses(ahead: Float64Array, back: Float64Array): void {
    toNodes(ahead, this.shapeAhead);
    toNodes(back, this.shapeBack);
  }

  refreshLosses(): void {
    refreshNodeLosses(this);
  }

  mass(): number {
    this.fillDensity();
    return integral(this, this.perVolume);
  }

  burntMass(): number {
    const { perVolume } = this;
    this.fillDensity();
    for (let j = 0; j <= this.cells; j++) perVolume[j] *= this.now.y[j];
    return integral(this, perVolume);
  }

  energyContent(): number {
    const { perVolume, gas, T } = this;
    const { u, y } = this.now;
    this.fillDensity();
    for (let j = 0; j <= this.cells; j++) perVolume[j] *= gas.energy(T[j], y[j]) + 0.5 * u[j] * u[j];
    return integral(this, perVolume);
  }

  complaint(): string {
    const { X, u } = this.now;
    for (let j = 0; j <= this.cells; j++) {
      if (isPhysicalNode(this, j)) continue;
      return (
        `duct "${this.name}" at ${(j * this.dx * 1000).toFixed(0)} mm: pressure ${this.pressureOf(X[j])} Pa, ` +
        `temperature ${this.T[j]} K, velocity ${u[j]} m/s`
      );
    }
    return `duct "${this.name}" has no finite wave speed`;
  }

  probe(position: number, out: Float64Array): void {
    if (this.cellValues.any) this.decode();
    const along = position / this.dx;
    const i = Math.max(0, Math.min(this.cells - 1, Math.floor(along)));
    const t = Math.max(0, Math.min(1, along - i));
    const { X, u, A, y } = this.now;
    prepare(this);
    const x = between(X, this.bendX, i, t);
    const RT = square(x * between(A, this.bendA, i, t));
    const burnt = this.mixed ? between(y, this.bendY, i, t) : 0;
    const pressure = this.pressureOf(x);
    out[0] = pressure;
    out[1] = between(u, this.bendU, i, t);
    out[2] = RT / this.gas.gasConstant(burnt);
    out[3] = pressure / RT;
  }

  /** The means of the nodes on both sides of a cell. */
  fields(): CellFields {
    if (this.cellValues.any) this.decode();
    const { p, u, a, T, y } = this.cellFields;
    const { now, w } = this;
    for (let i = 0; i < this.cells; i++) {
      const X = 0.5 * (now.X[i] + now.X[i + 1]);
      p[i] = this.pressureOf(X);
      u[i] = 0.5 * (now.u[i] + now.u[i + 1]);
      a[i] = 0.5 * (w[i] + w[i + 1]) * X;
      T[i] = 0.5 * (this.T[i] + this.T[i + 1]);
      y[i] = 0.5 * (now.y[i] + now.y[i + 1]);
    }
    return this.cellFields;
  }

  private keepEnds(): void {
    const { endsBefore, cells } = this;
    const { X, u, A, y } = this.now;
    endsBefore[0] = X[0];
    endsBefore[1] = X[cells];
    endsBefore[2] = u[0];
    endsBefore[3] = u[cells];
    endsBefore[4] = A[0];
    endsBefore[5] = A[cells];
    endsBefore[6] = y[0];
    endsBefore[7] = y[cells];
  }

  private fillDensity(): void {
    if (this.cellValues.any) this.decode();
    const { perVolume, gas, T } = this;
    const { X, y } = this.now;
    for (let j = 0; j <= this.cells; j++)
      perVolume[j] = this.pressureOf(X[j]) / (gas.gasConstant(y[j]) * T[j]);
  }

  /** Heat flow from the walls into the gas [W]. */
  private wallHeat(): number {
    const { nodeHeat, nodeWall, T, cells } = this;
    const { volume } = this.geometry;
    let sum = 0;
    for (let i = 0; i < cells; i++) {
      const left = nodeHeat[i] * (nodeWall[i] - T[i]);
      const right = nodeHeat[i + 1] * (nodeWall[i + 1] - T[i + 1]);
      sum += 0.5 * volume[i] * (left + right);
    }
    return sum;
  }
}
