/**
 * Reed petals as one spring-mass oscillator: the first bending mode of a clamped strip, tip lift x,
 *   m x'' + 2 zeta m omega x' + m omega^2 x = load,   omega = (1.8751)^2 sqrt(E I/(rho A)) / L^2
 * Under a uniform pressure difference the modal load per modal mass is 1.566 dp/(rho t) at the tip (ratio of the
 * integrals of the mode shape and of its square for a cantilever, mode scaled to 1 at the tip: 0.3915/0.2500).
 * The tip stops at its seat and at the stop without rebound. The flow area is the curtain, at most the cage's:
 *   A = n x (w + s 0.3915 L),   the width at the tip and s sides that taper with the mode shape.
 * A petal has two sides, but stands beside others that shield it: how many of the two flow is an input.
 * Source: Euler-Bernoulli cantilever, any text on vibration; the no-rebound stop is an assumption.
 */

import { CLOCK, type Clock } from '../march/clock.ts';
import type { Opening } from './opening.ts';

export interface ReedPetals {
  readonly count: number;
  readonly width: number;
  readonly length: number;
  readonly thickness: number;
  readonly density: number;
  readonly modulus: number;
  /** Tip lift at the stop [m]. */
  readonly stop: number;
  /** Damping ratio [-]. */
  readonly damping: number;
  /** Sides of a petal through which gas flows, 0 to 2 [-]. */
  readonly openSides: number;
  /** Free area of the cage's openings [m2]. */
  readonly cageArea: number;
  readonly discharge: number;
}

const MODE = 1.8751041;
const MEAN_LIFT = 0.391496;
const LOAD_SHARE = 1.56598;

/** First natural frequency of the petals [rad/s]. */
export function petalFrequency(petals: ReedPetals): number {
  const { modulus, thickness, density, length } = petals;
  return ((MODE * MODE) / (length * length)) * Math.sqrt((modulus * thickness * thickness) / (12 * density));
}

export class ReedValve implements Opening {
  areaOut = 0;
  areaIn = 0;
  lift = 0;
  speed = 0;
  readonly petals: ReedPetals;
  private readonly omega: number;

  constructor(petals: ReedPetals) {
    this.petals = petals;
    this.omega = petalFrequency(petals);
  }

  set(): void {
    const { count, width, length, openSides, cageArea, discharge } = this.petals;
    const curtain = count * this.lift * (width + openSides * MEAN_LIFT * length);
    const area = discharge * (curtain < cageArea ? curtain : cageArea);
    this.areaOut = area;
    this.areaIn = area;
  }

  /** Moves the petals over the clock's step under the pressure of the tract less the crankcase's [Pa]; semi-implicit. */
  advance(clock: Clock, difference: Float64Array): void {
    const dt = clock[CLOCK.dt];
    const { density, thickness, damping, stop } = this.petals;
    const force = (LOAD_SHARE * difference[0]) / (density * thickness);
    const w = this.omega;
    const speed = (this.speed + dt * (force - w * w * this.lift)) / (1 + dt * (2 * damping * w + dt * w * w));
    const lift = this.lift + dt * speed;
    if (lift <= 0) {
      this.lift = 0;
      this.speed = 0;
    } else if (lift >= stop) {
      this.lift = stop;
      this.speed = 0;
    } else {
      this.lift = lift;
      this.speed = speed;
    }
  }
}
