/**
 * A march that no longer gets on. Steps follow the fastest wave; one that runs away, as the textbook scheme lets it where it does
 * not keep mass and energy, makes them shorter and shorter, and the end is never reached. Gas whose waves are `SHRUNK` times as
 * fast as at first would be that number squared as hot, which none is: a hundred times is millions of kelvins.
 */

import type { Rig } from './rig.ts';

/** Longest step so far over one that is too short, and how many such in a row are no accident of a single shock. */
const SHRUNK = 100;
const IN_A_ROW = 200;

export class Stall {
  private longest = 0;
  private short = 0;

  /** Notes a step taken [s]; true once there were too many too short ones in a row. */
  note(step: number): boolean {
    if (step > this.longest) this.longest = step;
    this.short = step * SHRUNK < this.longest ? this.short + 1 : 0;
    return this.short >= IN_A_ROW;
  }
}

/** Where waves are fastest, and in what gas. */
export function fastestPlace({ stretches }: Rig): string {
  let most = 0;
  let place = '';
  for (const { duct, origin } of stretches) {
    const { offset, p, u, a, T } = duct.fields();
    for (let i = 0; i < duct.geometry.cells; i++) {
      const k = i + offset;
      const fastest = Math.abs(u[k]!) + a[k]!;
      if (!(fastest > most)) continue;
      most = fastest;
      const at = 1000 * (origin + (i + 0.5) * duct.geometry.dx);
      const state = `${T[k]!.toPrecision(3)} K and ${p[k]!.toPrecision(3)} Pa`;
      place = `at ${at.toFixed(0)} mm, at ${state}, waves run at ${fastest.toPrecision(3)} m/s`;
    }
  }
  return place;
}
