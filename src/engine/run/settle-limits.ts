/**
 * What a run to a settled state is held to.
 *
 * The gas of the pipe is the engine's memory. Where waves change much with it, at the edge of the band, torque swings about
 * its limit in a damped wave of some eighteen cycles, each swing a third of the one before. At a turning point of such a
 * swing a few cycles are as quiet as settled ones, and off by a third of the swing; so quiet cycles are believed only where
 * torque and the wave's middle moved little over half a swing. The figures are those with which every speed of the demo, from a
 * cold start and from its neighbour, ends within 0.5 % of torque and 0.25 degrees of the middle of runs of 64 cycles, found in
 * `tests/studies/settling.mjs`: on 10 mm cells 0.32 % and 0.20 degrees at worst.
 */

/** Relative spreads, degrees, kelvin a cycle, share of the heat released, kelvin off a wall's balance. */
export interface QuietLimits {
  readonly torque: number;
  readonly trapped: number;
  readonly plugBackDeg: number;
  readonly temperature: number;
  readonly drift: number;
  readonly wall: number;
}

/** Cycles that are the start's own, and no swing. */
export const START_CYCLES = 3;

/** How far torque [-] and the wave's middle [deg] may have moved over some cycles. */
export interface SwingLimits {
  readonly cycles: number;
  readonly torque: number;
  readonly plugBackDeg: number;
}

/** How far torque [-] and the wave's middle [deg] may have still to go, told from so many cycles (`creep.ts`). */
export interface CreepLimits {
  readonly cycles: number;
  readonly torque: number;
  readonly plugBackDeg: number;
}

export interface Strictness {
  readonly minCycles: number;
  /** Cycles judged together where all is quiet. */
  readonly window: number;
  readonly quiet: QuietLimits;
  /** Null: not asked. */
  readonly swing: SwingLimits | null;
  /** Null: not asked. */
  readonly creep: CreepLimits | null;
}

/** A creep dies away more slowly the longer it lasts, so what is still to go is told too short, by three times on the demo. */
const CREEP: CreepLimits = { cycles: 9, torque: 0.001, plugBackDeg: 0.06 };

export const USUAL: Strictness = {
  minCycles: 6,
  window: 4,
  quiet: { torque: 0.004, trapped: 0.004, plugBackDeg: 0.3, temperature: 0.4, drift: 0.003, wall: 1 },
  swing: { cycles: 10, torque: 0.016, plugBackDeg: 0.56 },
  creep: CREEP,
};

/**
 * From the fields of the same speed on coarse cells, which are near the limit from the first cycle on; held a little tighter, for a
 * few cycles on the way from one mesh to the other can look quiet (the demo on 5 mm cells at 7500 rpm, 0.8 % low).
 */
export const FROM_COARSE: Strictness = {
  ...USUAL,
  minCycles: 5,
  quiet: { ...USUAL.quiet, torque: 0.0035, trapped: 0.0035, temperature: 0.33 },
};

/** For a second opinion, whose difference from the first is to be the schemes' alone. */
export const STRICT: Strictness = {
  minCycles: 9,
  window: 6,
  quiet: { torque: 0.003, trapped: 0.003, plugBackDeg: 0.3, temperature: 0.3, drift: 0.003, wall: 1 },
  swing: { cycles: 10, torque: 0.016, plugBackDeg: 0.56 },
  creep: CREEP,
};
