/**
 * Geometry of a duct of round tapers on a uniform mesh: areas of the cell faces and volumes of the cells, both exact
 * for straight-sided cones, so that a joint between tapers need not fall on a face.
 *   F(x) = pi/4 d(x)^2,  V = integral of F over the cell
 */

/** A stretch of duct with a straight taper [m]. */
export interface Taper {
  readonly length: number;
  readonly diameter: readonly [left: number, right: number];
}

export interface DuctGeometry {
  readonly length: number;
  readonly cells: number;
  /** Cell length [m]. */
  readonly dx: number;
  /** Area of face j at the left of cell j; cells + 1 of them [m2]. */
  readonly faceArea: Float64Array;
  /** Volume of cell i [m3]. */
  readonly volume: Float64Array;
  /** Mean diameter of cell i, 4V/(perimeter area) for the losses [m]. */
  readonly diameter: Float64Array;
}

/** Diameter at a position [m]. Positions beyond an end take that end's. */
export function diameterAt(tapers: readonly Taper[], x: number): number {
  let start = 0;
  for (const taper of tapers) {
    if (x <= start + taper.length) {
      const share = Math.max(0, (x - start) / taper.length);
      return taper.diameter[0] + share * (taper.diameter[1] - taper.diameter[0]);
    }
    start += taper.length;
  }
  return tapers[tapers.length - 1].diameter[1];
}

/** Volume between the start of the duct and a position [m3]. */
export function volumeBefore(tapers: readonly Taper[], x: number): number {
  let start = 0;
  let sum = 0;
  for (const taper of tapers) {
    const covered = Math.min(taper.length, Math.max(0, x - start));
    const [a, b] = taper.diameter;
    const c = a + ((b - a) * covered) / taper.length;
    sum += (Math.PI / 12) * covered * (a * a + a * c + c * c);
    start += taper.length;
  }
  return sum;
}

/** Total length of the tapers [m]. */
export function totalLength(tapers: readonly Taper[]): number {
  return tapers.reduce((sum, taper) => sum + taper.length, 0);
}

/**
 * Meshes tapers with `cells` equal cells.
 * @throws RangeError if a length or diameter is not positive, or the tapers do not join.
 */
export function meshTapers(tapers: readonly Taper[], cells: number): DuctGeometry {
  tapers.forEach((taper, k) => {
    if (!(taper.length > 0) || !(taper.diameter[0] > 0) || !(taper.diameter[1] > 0))
      throw new RangeError(`taper ${k + 1}: length and diameters must be positive`);
    const before = k > 0 ? tapers[k - 1].diameter[1] : taper.diameter[0];
    if (Math.abs(before - taper.diameter[0]) > 1e-9)
      throw new RangeError(
        `taper ${k + 1} does not join the one before: a jump in area is a junction, not a duct`,
      );
  });
  const length = totalLength(tapers);
  const dx = length / cells;
  const faceArea = new Float64Array(cells + 1);
  const volume = new Float64Array(cells);
  const diameter = new Float64Array(cells);
  for (let j = 0; j <= cells; j++) {
    const d = j === cells ? tapers[tapers.length - 1].diameter[1] : diameterAt(tapers, j * dx);
    faceArea[j] = (Math.PI / 4) * d * d;
  }
  for (let i = 0; i < cells; i++) {
    volume[i] = volumeBefore(tapers, (i + 1) * dx) - volumeBefore(tapers, i * dx);
    diameter[i] = Math.sqrt((4 * volume[i]) / (Math.PI * dx));
  }
  return { length, cells, dx, faceArea, volume, diameter };
}

/** Cells that a duct of a length gets for a wanted cell length; at least `least` [-]. */
export function cellsFor(length: number, cell: number, least = 6): number {
  return Math.max(least, Math.round(length / cell));
}
