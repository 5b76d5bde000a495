/**
 * A duct's state for the conservative method: cell averages per volume (density, momentum, energy, burnt density), the
 * primitive state decoded from them, the two traced states at each face, and the fluxes. Struct of arrays, made once.
 *
 * Cell arrays carry `GHOSTS` extra cells at each end: cell i sits at index i + GHOSTS. Face j is the left face of cell j.
 * Conserved arrays come in pairs (`now`, `next`), so that a rejected step loses nothing.
 */

import type { Conserved } from '../../duct/duct.ts';
import { DuctEnd } from '../../duct/duct-end.ts';
import type { DuctGeometry } from '../../duct/geometry.ts';
import { NO_LOSSES, roughnessTerm, type WallLosses } from '../../duct/wall-losses.ts';
import type { GasModel } from '../../gas/gas-model.ts';

export const GHOSTS = 2;

/** Makes a row of a length, all nought: on the heap, or where another form of the kernel wants its rows to lie. */
export type RowMaker = (length: number) => Float64Array;

const onHeap: RowMaker = (length) => new Float64Array(length);

function conserved(cells: number, row: RowMaker): Conserved {
  return { density: row(cells), momentum: row(cells), energy: row(cells), burnt: row(cells) };
}

export class DuctState {
  readonly name: string;
  readonly gas: GasModel;
  readonly geometry: DuctGeometry;
  readonly cells: number;
  readonly dx: number;
  readonly losses: WallLosses;
  /** Burnt gas and fresh charge both occur; false skips the transport of the burnt fraction. */
  readonly mixed: boolean;

  now: Conserved;
  next: Conserved;

  // Primitive cell state, with ghosts: density, velocity, pressure, burnt fraction, temperature, gamma, sound speed.
  readonly r: Float64Array;
  readonly u: Float64Array;
  readonly p: Float64Array;
  readonly y: Float64Array;
  readonly T: Float64Array;
  readonly gamma: Float64Array;
  readonly a: Float64Array;

  // Interface values of the parabolas.
  readonly rFace: Float64Array;
  readonly uFace: Float64Array;
  readonly pFace: Float64Array;
  readonly yFace: Float64Array;

  // States that the characteristics bring to face j: from the left (cell j-1) and from the right (cell j).
  readonly rLeft: Float64Array;
  readonly uLeft: Float64Array;
  readonly pLeft: Float64Array;
  readonly yLeft: Float64Array;
  readonly rRight: Float64Array;
  readonly uRight: Float64Array;
  readonly pRight: Float64Array;
  readonly yRight: Float64Array;

  // Face states where they meet, and the fluxes through the faces.
  readonly rStar: Float64Array;
  readonly uStar: Float64Array;
  readonly pStar: Float64Array;
  readonly yStar: Float64Array;
  readonly massFlux: Float64Array;
  readonly momentumFlux: Float64Array;
  readonly energyFlux: Float64Array;
  readonly burntFlux: Float64Array;

  /** d(ln F)/dx of the cells [1/m]. */
  readonly areaSlope: Float64Array;
  /** Flattening of the parabolas at shocks, 0 none to 1 full, with ghosts [-]. */
  readonly flatten: Float64Array;
  /** Cells held flat while a failed step is taken again, 1 or 0; `calmed` says whether any is. */
  readonly calm: Float64Array;
  calmed = false;
  /** Friction: G = frictionOverD |u| u [1/m]; wall heat: q rho = heatOverD (Tw - T) [W/(m3 K)]. */
  readonly frictionOverD: Float64Array;
  readonly heatOverD: Float64Array;
  readonly wallTemperature: Float64Array;
  /** Losses of shape where the stream runs to the right, to the left, and those now in `frictionOverD` [1/m]. */
  readonly shapeAhead: Float64Array;
  readonly shapeBack: Float64Array;
  readonly shapeNow: Float64Array;
  shaped = false;
  /** Factor on the wall heat of the cells [-]. */
  readonly heatFactor: Float64Array;
  /** Haaland's term of the wall's roughness in the cells [-]. */
  readonly rough: Float64Array;

  /** Largest |u| + a of the state as decoded [m/s]; heat taken from the walls over the last step [J]. */
  fastest = 0;
  heatTaken = 0;

  readonly left: DuctEnd;
  readonly right: DuctEnd;

  constructor(
    name: string,
    gas: GasModel,
    geometry: DuctGeometry,
    losses: WallLosses = NO_LOSSES,
    mixed = true,
    row: RowMaker = onHeap,
  ) {
    const n = geometry.cells;
    if (n < 4) throw new RangeError(`duct "${name}" has ${n} cells; the parabolas need at least 4`);
    this.name = name;
    this.gas = gas;
    this.geometry = geometry;
    this.cells = n;
    this.dx = geometry.dx;
    this.losses = losses;
    this.mixed = mixed && !gas.perfect;
    this.now = conserved(n, row);
    this.next = conserved(n, row);
    const cell = (): Float64Array => row(n + 2 * GHOSTS);
    const face = (): Float64Array => row(n + 1);
    this.r = cell();
    this.u = cell();
    this.p = cell();
    this.y = cell();
    this.T = cell();
    this.gamma = cell();
    this.a = cell();
    this.rFace = face();
    this.uFace = face();
    this.pFace = face();
    this.yFace = face();
    this.rLeft = face();
    this.uLeft = face();
    this.pLeft = face();
    this.yLeft = face();
    this.rRight = face();
    this.uRight = face();
    this.pRight = face();
    this.yRight = face();
    this.rStar = face();
    this.uStar = face();
    this.pStar = face();
    this.yStar = face();
    this.massFlux = face();
    this.momentumFlux = face();
    this.energyFlux = face();
    this.burntFlux = face();
    this.areaSlope = row(n);
    this.flatten = cell();
    this.calm = cell();
    this.rough = geometry.diameter.map((D) => roughnessTerm(losses.roughness / D));
    this.frictionOverD = row(n);
    this.heatOverD = row(n);
    this.wallTemperature = row(n).fill(300);
    this.shapeAhead = row(n);
    this.shapeBack = row(n);
    this.shapeNow = row(n);
    this.heatFactor = row(n).fill(losses.heatFactor ?? 1);
    for (let i = 0; i < n; i++)
      this.areaSlope[i] = (geometry.faceArea[i + 1] - geometry.faceArea[i]) / geometry.volume[i];
    this.left = new DuctEnd(this, -1, geometry.faceArea[0]);
    this.right = new DuctEnd(this, 1, geometry.faceArea[n]);
  }

  /** Centre of cell i [m]. */
  centre(i: number): number {
    return (i + 0.5) * this.dx;
  }

  /** Takes losses of shape for the cells, as the contract of a duct says. */
  giveShapeLosses(ahead: Float64Array, back: Float64Array): void {
    this.shapeAhead.set(ahead);
    this.shapeBack.set(back);
    this.shaped = true;
  }

  /** Sets the gas in cell i: pressure [Pa], temperature [K], velocity [m/s], burnt fraction [-]. */
  setCell(i: number, pressure: number, temperature: number, velocity = 0, burnt = 0): void {
    const density = pressure / (this.gas.gasConstant(burnt) * temperature);
    const { now } = this;
    now.density[i] = density;
    now.momentum[i] = density * velocity;
    now.energy[i] = density * (this.gas.energy(temperature, burnt) + 0.5 * velocity * velocity);
    now.burnt[i] = density * burnt;
    const k = i + GHOSTS;
    this.r[k] = density;
    this.u[k] = velocity;
    this.p[k] = pressure;
    this.T[k] = temperature;
    this.y[k] = burnt;
  }

  /** Gas mass in the duct [kg]. */
  mass(): number {
    return this.integral(this.now.density);
  }

  /** Burnt mass in the duct [kg]. */
  burntMass(): number {
    return this.integral(this.now.burnt);
  }

  /** Internal and kinetic energy in the duct [J]. */
  energyContent(): number {
    return this.integral(this.now.energy);
  }

  private integral(density: Float64Array): number {
    const { volume } = this.geometry;
    let sum = 0;
    for (let i = 0; i < this.cells; i++) sum += density[i] * volume[i];
    return sum;
  }
}
