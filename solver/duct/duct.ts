/**
 * A duct marched by the conservative method of characteristics: the state, and the stages of a step upon it.
 */

import { decode, unphysicalCell } from '../kernel/decode.ts';
import { advance, arrivals } from '../kernel/step.ts';
import { refreshLosses } from '../losses/wall-losses.ts';
import type { MarchingDuct } from './marching.ts';
import { DuctState, GHOSTS } from './state.ts';

/** Cells on each side of one that failed that are held flat as the step is taken again. */
const CALM_REACH = 4;

export class Duct extends DuctState implements MarchingDuct {
  decode(): number {
    return this.dx / decode(this);
  }

  arrive(dt: number): void {
    arrivals(this, dt);
  }

  finish(dt: number): number {
    return advance(this, dt);
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
      const k = i + GHOSTS;
      if (this.r[k] > 0 && this.p[k] > 0 && this.T[k] > 0) continue;
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
    if (i < 0) return `duct "${this.name}" has no finite state`;
    const k = i + GHOSTS;
    return (
      `duct "${this.name}" at ${(this.centre(i) * 1000).toFixed(0)} mm: density ${this.r[k]} kg/m3, ` +
      `pressure ${this.p[k]} Pa, velocity ${this.u[k]} m/s`
    );
  }

  /**
   * Cell averages turned into values at a point: linear between two centres less half the curvature there, and less a
   * twenty-fourth for the average over a cell. Across a jump the curvature is nil.
   */
  probe(position: number, out: Float64Array): void {
    const at = position / this.dx - 0.5;
    const i = Math.max(-1, Math.min(this.cells - 1, Math.floor(at)));
    const w = at - i;
    const k = i + GHOSTS;
    const share = this.mixed ? pointValue(this.y, k, w) : 0;
    out[0] = pointValue(this.p, k, w);
    out[1] = pointValue(this.u, k, w);
    out[3] = pointValue(this.r, k, w);
    out[2] = out[0] / (out[3] * this.gas.gasConstant(share));
  }
}

/** Value a share w on from the centre of cell k to that of the next. */
function pointValue(q: Float64Array, k: number, w: number): number {
  const here = q[k - 1] - 2 * q[k] + q[k + 1];
  const next = q[k] - 2 * q[k + 1] + q[k + 2];
  const curvature = here * next > 0 ? Math.sign(here) * Math.min(Math.abs(here), Math.abs(next)) : 0;
  return q[k] + w * (q[k + 1] - q[k]) - (0.5 * w * (1 - w) + 1 / 24) * curvature;
}
