/**
 * A duct's state for the textbook's mesh method of characteristics: gas at the nodes x_j = j dx, j = 0 .. cells, ends included.
 *
 * Pressure and temperature are kept as
 *   X = (p/p_ref)^k,  k = (g-1)/(2g),      A = sqrt(R T)/X  [m/s],
 * g being the gamma of the perfect gas, or one fixed number for a blend. Then dp/(rho a) = c dX with c = a/(gamma k X), and
 * a = w X with w = sqrt(gamma) A. A is Benson's entropy level: in a perfect gas c and w follow from it alone, u +- cX are the
 * Riemann variables and A stays along path lines; in a blend it changes slowly. Where interpolation smears a contact of hot
 * and cold gas, A keeps the sound speed about right and with it the travel times, but not the mass: in the demo engine at
 * 10 000 rpm and 10 mm cells, slugs of fresh charge in the exhaust pipe lose it a seventh of what passes. The density in its
 * place lost a twenty-fifth, but with the energy lost at shocks the gas ran cold and the plug-back came 6 degrees late.
 * Struct of arrays; node states in pairs so that a rejected step loses nothing.
 */

import { power } from '../../arithmetic/functions.ts';
import { DuctEnd } from '../../duct/duct-end.ts';
import type { DuctGeometry } from '../../duct/geometry.ts';
import { NO_LOSSES, roughnessTerm, type WallLosses } from '../../duct/wall-losses.ts';
import type { GasModel } from '../../gas/gas-model.ts';

/** Reference of X [Pa]. */
export const REFERENCE_PRESSURE = 1e5;
/** g of a blend: near the middle of what exhaust and fresh charge have; any value gives the same answer to second order. */
const BLEND_GAMMA = 1.33;

/** What an end remembers: the state the outgoing characteristic last brought, and its last answers. See `ends.ts`. */
export const END_SLOTS = 24;

/** The nodes at one time. */
export interface Level {
  readonly X: Float64Array;
  readonly u: Float64Array;
  readonly A: Float64Array;
  readonly y: Float64Array;
  readonly leftEnd: Float64Array;
  readonly rightEnd: Float64Array;
}

/** What one family of characteristics finds at its feet, by the node it arrives at. */
export interface Feet {
  /** Distance from the node to the foot over dx, positive to the left [-]. */
  readonly nu: Float64Array;
  readonly X: Float64Array;
  readonly u: Float64Array;
  readonly c: Float64Array;
  readonly a: Float64Array;
  /** Sources gathered on the way [m/s]. */
  readonly gain: Float64Array;
}

export class TextbookState {
  readonly name: string;
  readonly gas: GasModel;
  readonly geometry: DuctGeometry;
  readonly cells: number;
  readonly dx: number;
  readonly losses: WallLosses;
  readonly mixed: boolean;
  /** k of X = (p/p_ref)^k [-]. */
  readonly k: number;

  now: Level;
  next: Level;

  // Of the current nodes: c, w = a/X, gamma, temperature.
  readonly c: Float64Array;
  readonly w: Float64Array;
  readonly gamma: Float64Array;
  readonly T: Float64Array;

  // Second differences over the nodes.
  readonly bendX: Float64Array;
  readonly bendU: Float64Array;
  readonly bendA: Float64Array;
  readonly bendY: Float64Array;

  readonly plus: Feet;
  readonly minus: Feet;
  readonly path: Feet;

  // Of a blend at the end of the step, as estimated: burnt fraction, temperature, gamma.
  readonly trialY: Float64Array;
  readonly trialT: Float64Array;
  readonly trialGamma: Float64Array;

  /** Diameter at the nodes [m]. */
  readonly diameter: Float64Array;
  readonly tapered: boolean;
  /** Haaland's term of the wall's roughness at the nodes [-]. */
  readonly rough: Float64Array;

  // Wall losses: coefficients by cell (given from outside where `losses` are off), by node, and the rates at the nodes.
  readonly frictionOverD: Float64Array;
  readonly heatOverD: Float64Array;
  readonly wallTemperature: Float64Array;
  readonly nodeFriction: Float64Array;
  readonly nodeHeat: Float64Array;
  readonly nodeWall: Float64Array;
  /** Losses of shape at the nodes where the stream runs to the right, and to the left [1/m]; kept by cells for nobody here. */
  readonly shapeAhead: Float64Array;
  readonly shapeBack: Float64Array;
  readonly shapeNow: Float64Array;
  /** Density of the current nodes, kept up where there are losses [kg/m3]. */
  readonly density: Float64Array;
  /** G [m/s2] and q + uG [W/kg], now and at the end of the step. */
  readonly drag: Float64Array;
  readonly warm: Float64Array;
  readonly dragNext: Float64Array;
  readonly warmNext: Float64Array;
  /** A of the gas that the path lines bring to the nodes, heated on the way. */
  readonly heated: Float64Array;
  lossy = false;

  readonly left: DuctEnd;
  readonly right: DuctEnd;

  constructor(
    name: string,
    gas: GasModel,
    geometry: DuctGeometry,
    losses: WallLosses = NO_LOSSES,
    mixed = true,
  ) {
    const n = geometry.cells;
    if (n < 4) throw new RangeError(`duct "${name}" has ${n} cells; scheme: mesh needs at least 4`);
    this.name = name;
    this.gas = gas;
    this.geometry = geometry;
    this.cells = n;
    this.dx = geometry.dx;
    this.losses = losses;
    this.mixed = mixed && !gas.perfect;
    const g = gas.perfect ? 1 + gas.gasConstantFresh / gas.perfectCv : BLEND_GAMMA;
    this.k = (g - 1) / (2 * g);
    const node = (): Float64Array => new Float64Array(n + 1);
    const level = (): Level => ({
      X: node(),
      u: node(),
      A: node(),
      y: node(),
      leftEnd: new Float64Array(END_SLOTS),
      rightEnd: new Float64Array(END_SLOTS),
    });
    const feet = (): Feet => ({ nu: node(), X: node(), u: node(), c: node(), a: node(), gain: node() });
    this.now = level();
    this.next = level();
    this.c = node();
    this.w = node();
    this.gamma = node();
    this.T = node();
    this.bendX = node();
    this.bendU = node();
    this.bendA = node();
    this.bendY = node();
    this.plus = feet();
    this.minus = feet();
    this.path = feet();
    this.diameter = geometry.faceArea.map((area) => Math.sqrt((4 * area) / Math.PI));
    this.rough = this.diameter.map((D) => roughnessTerm(losses.roughness / D));
    this.tapered = this.diameter.some((d) => d !== this.diameter[0]);
    this.frictionOverD = new Float64Array(n);
    this.heatOverD = new Float64Array(n);
    this.wallTemperature = new Float64Array(n).fill(300);
    this.nodeFriction = node();
    this.nodeHeat = node();
    this.nodeWall = node();
    this.shapeAhead = node();
    this.shapeBack = node();
    this.shapeNow = new Float64Array(n);
    this.density = node();
    this.drag = node();
    this.warm = node();
    this.dragNext = node();
    this.warmNext = node();
    this.heated = node();
    this.trialY = node();
    this.trialT = node();
    this.trialGamma = node();
    this.left = new DuctEnd(this, -1, geometry.faceArea[0]);
    this.right = new DuctEnd(this, 1, geometry.faceArea[n]);
  }

  /** Sets the gas at node j: pressure [Pa], temperature [K], velocity [m/s], burnt fraction [-]. */
  setNode(j: number, pressure: number, temperature: number, velocity = 0, burnt = 0): void {
    const { X, u, A, y } = this.now;
    X[j] = power(pressure / REFERENCE_PRESSURE, this.k);
    u[j] = velocity;
    A[j] = Math.sqrt(this.gas.gasConstant(burnt) * temperature) / X[j];
    y[j] = burnt;
  }

  /** Pressure that belongs to X [Pa]. */
  pressureOf(X: number): number {
    return REFERENCE_PRESSURE * power(X, 1 / this.k);
  }
}
