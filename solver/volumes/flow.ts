/** A stream between two parts of a network: mass, energy and burnt mass [kg/s, W, kg/s], with the sign its owner states. */

export type Flow = Float64Array;

export function newFlow(): Flow {
  return new Float64Array(3);
}
