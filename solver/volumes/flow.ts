/** A stream between two parts of a network, with the sign its owner states. */

/** Slots of a flow: mass [kg/s], energy [W], burnt mass [kg/s]. */
export const FLOW = { mass: 0, energy: 1, burnt: 2 } as const;

export type Flow = Float64Array;

/** A stream of nothing. */
export function newFlow(): Flow {
  return new Float64Array(3);
}
