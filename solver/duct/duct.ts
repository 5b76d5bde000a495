/**
 * A duct marched by the conservative method of characteristics: the state, and the stages of a step upon it.
 */

import { decode, unphysicalCell } from '../kernel/decode.ts';
import { advance, arrivals } from '../kernel/step.ts';
import { refreshLosses } from '../losses/wall-losses.ts';
import type { MarchingDuct } from './marching.ts';
import { DuctState, GHOSTS } from './state.ts';

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

  probe(position: number, out: Float64Array): void {
    const at = position / this.dx - 0.5;
    const i = Math.max(0, Math.min(this.cells - 2, Math.floor(at)));
    const w = at - i;
    const k = i + GHOSTS;
    out[0] = this.p[k] + w * (this.p[k + 1] - this.p[k]);
    out[1] = this.u[k] + w * (this.u[k + 1] - this.u[k]);
    out[2] = this.T[k] + w * (this.T[k + 1] - this.T[k]);
    out[3] = this.r[k] + w * (this.r[k + 1] - this.r[k]);
  }
}
