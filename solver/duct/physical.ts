/**
 * What counts as a physical state of the gas in a duct: positive density and pressure, and a temperature that the gas is known
 * at. One test for the decoding that rejects a step, for the caution with which it is taken again, and for the message.
 */

/**
 * Whether two quantities that must be positive are (density and pressure, or what a scheme has in their place), and a gas is known
 * at its temperature. Small, so that it is inlined where it is asked of every cell.
 */
export function isPhysical(one: number, other: number, T: number, coldest: number, hottest: number): boolean {
  return one > 0 && other > 0 && T > coldest && T <= hottest;
}
