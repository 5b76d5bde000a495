/**
 * How a cylinder's crank angle follows time: deg = 6 rpm t - phase, with t = 0 at a top dead centre of the crank whose phase
 * is nought. All cylinders of an engine turn at one speed; each has its own phase.
 */

export interface CrankPhase {
  readonly rpm: number;
  /** Degrees by which this cylinder's top dead centre comes after t = 0. */
  readonly phaseDeg: number;
}

/** Time at which a crank angle, counted over all turns [deg], is reached [s]. */
export function timeAt({ rpm, phaseDeg }: CrankPhase, deg: number): number {
  return (deg + phaseDeg) / (6 * rpm);
}
