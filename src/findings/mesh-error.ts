/**
 * How far cells of a length are from cells of 2.5 mm: torque and the middle of the wave of the demo's draft A at 9 000, 10 500 and
 * 11 500 rpm, the worst of the three, rounded up. The last lies beyond its band.
 */

export interface MeshError {
  /** [m] */
  readonly cell: number;
  /** [-] */
  readonly torque: number;
  readonly middleDeg: number;
}

/** Cells as fine as, and what they are off by. */
const MEASURED: readonly MeshError[] = [
  { cell: 5e-3, torque: 0.004, middleDeg: 0.1 },
  { cell: 7e-3, torque: 0.006, middleDeg: 0.2 },
  { cell: 10e-3, torque: 0.01, middleDeg: 0.3 },
  { cell: 20e-3, torque: 0.026, middleDeg: 0.8 },
];

/** What was measured for cells no finer than these; null: for such coarse ones nothing was. */
export const meshError = (cell: number): MeshError | null =>
  MEASURED.find((one) => cell <= one.cell * (1 + 1e-9)) ?? null;
