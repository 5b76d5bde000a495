/**
 * A duct marched by the conservative method of characteristics: the state, and the stages of a step upon it.
 */

import type { CellFields, Conserved, MarchingDuct } from '../../duct/duct.ts';
import type { Clock } from '../../march/clock.ts';
import { refreshLosses } from './cell-losses.ts';
import { decode } from './decode.ts';
import { isPhysicalCell, unphysicalCell } from './physical-cells.ts';
import { valueAt } from './point-value.ts';
import { DuctState, GHOSTS } from './state.ts';
import { advance, arrivals } from './step.ts';

/** Cells on each side of one that failed that are held flat as the step is taken again. */
const CALM_REACH = 4;

export class ConservativeDuct extends DuctState implements MarchingDuct {
  private readonly cellFields: CellFields = {
    offset: GHOSTS,
    p: this.p,
    u: this.u,
    a: this.a,
    T: this.T,
    y: this.y,
  };

  fields(): CellFields {
    return this.cellFields;
  }

  conserved(): Conserved {
    return this.now;
  }

  decode(): number {
    decode(this);
    return this.dx / this.fastest;
  }

  arrive(clock: Clock): void {
    arrivals(this, clock);
  }

  finish(clock: Clock): number {
    advance(this, clock);
    return this.heatTaken;
  }

  accept(): void {
    const { now } = this;
    this.now = this.next;
    this.next = now;
  }

  reject(): void {
    this.accept();
  }

  /** Notes the cells whose state is not physical and their neighbours; they are held flat until `ease`. */
  soothe(): void {
    for (let i = 0; i < this.cells; i++) {
      if (isPhysicalCell(this, i)) continue;
      const k = i + GHOSTS;
      this.calmed = true;
      const last = Math.min(k + CALM_REACH, this.calm.length - 1);
      for (let near = Math.max(0, k - CALM_REACH); near <= last; near++) this.calm[near] = 1;
    }
  }

  ease(): void {
    if (this.calmed) this.calm.fill(0);
    this.calmed = false;
  }

  refreshLosses(): void {
    refreshLosses(this);
  }

  complaint(): string {
    const i = unphysicalCell(this);
    if (i < 0) return `duct "${this.name}" has no finite wave speed`;
    const k = i + GHOSTS;
    return (
      `duct "${this.name}" at ${(this.centre(i) * 1000).toFixed(0)} mm: density ${this.r[k]} kg/m3, ` +
      `pressure ${this.p[k]} Pa, temperature ${this.T[k]} K, velocity ${this.u[k]} m/s`
    );
  }

  probe(position: number, out: Float64Array): void {
    const at = position / this.dx - 0.5;
    const share = this.mixed ? valueAt(this.y, at, this.cells) : 0;
    out[0] = valueAt(this.p, at, this.cells);
    out[1] = valueAt(this.u, at, this.cells);
    out[3] = valueAt(this.r, at, this.cells);
    out[2] = out[0] / (out[3] * this.gas.gasConstant(share));
  }
}
