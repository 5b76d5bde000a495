/**
 * Count of iterations in a step that ran out of rounds before they met their tolerance, or found no root between their bounds.
 * The network clears it before each attempt and books it once the step stands. One cell for all of a thread, in a typed
 * array, so that counting allocates nothing.
 */

export const unconverged = new Int32Array(1);
