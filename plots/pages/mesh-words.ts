/** How sure numbers are on cells of a length, for the small print. */

import { meshError } from '../../src/findings/mesh-error.ts';
import { fixed, THIN } from '../theme/numbers.ts';

export function meshText(cell: number): string {
  const of = `Cells of ${Number((1000 * cell).toFixed(2))}${THIN}mm`;
  const error = meshError(cell);
  return error === null
    ? `${of}: coarse, for looking round.`
    : `${of}: on the example, except at the very edge of its band, torque was within ${fixed(100 * error.torque, 1)}${THIN}% and the wave’s middle within ${fixed(error.middleDeg, 1)}° of cells of 2.5${THIN}mm.`;
}
