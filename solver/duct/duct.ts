/**
 * What the network needs of a duct, whichever scheme marches it. A step is `decode` (once per accepted state), `arrive`
 * (traces the characteristics, fills the ends' arriving states), then the boundaries answer, then `finish` and `accept`.
 */

import type { GasModel } from '../gas/gas-model.ts';
import type { Clock } from '../march/clock.ts';
import type { DuctEnd } from './duct-end.ts';
import type { DuctGeometry } from './geometry.ts';
import type { WallLosses } from './wall-losses.ts';

/** The current state by cells, for observers: cell i stands at index i + offset. The arrays are reused by later steps. */
export interface CellFields {
  readonly offset: number;
  readonly p: Float64Array;
  readonly u: Float64Array;
  readonly a: Float64Array;
  readonly T: Float64Array;
  readonly y: Float64Array;
}

/** The current state per volume, by cells, to be added to: density, momentum, energy, burnt density. */
export interface Conserved {
  readonly density: Float64Array;
  readonly momentum: Float64Array;
  readonly energy: Float64Array;
  readonly burnt: Float64Array;
}

export interface MarchingDuct {
  readonly name: string;
  readonly gas: GasModel;
  readonly geometry: DuctGeometry;
  readonly left: DuctEnd;
  readonly right: DuctEnd;
  /** Wall temperature of the cells [K]. */
  readonly wallTemperature: Float64Array;
  /** What losses at the wall are switched on, and its roughness [m]. */
  readonly losses: WallLosses;
  /** Friction of the cells, losses of shape included, G = frictionOverD |u| u [1/m]; given from outside where no friction law is switched on. */
  readonly frictionOverD: Float64Array;
  /** Wall heat of the cells, q rho = heatOverD (Tw - T) [W/(m3 K)]; likewise. */
  readonly heatOverD: Float64Array;
  /** What of `frictionOverD` is the shape's, bends and widenings, not the wall's [1/m]. */
  readonly shapeNow: Float64Array;
  /**
   * Gives the cells losses of their shape, G = loss |u| u: `ahead` where the stream runs to the right, `back` where to the left
   * [1/m]. They follow the stream's direction at each refresh.
   */
  giveShapeLosses(ahead: Float64Array, back: Float64Array): void;
  /** Refreshes what follows from the current state; largest stable step at Courant number 1 [s], NaN if unphysical. */
  decode(): number;
  /** Traces the characteristics over the step and fills `arrive` of both ends. */
  arrive(clock: Clock): void;
  /** Updates over the step with the ends' answers; heat taken from the walls [J]. */
  finish(clock: Clock): number;
  /** Makes the updated state current. */
  accept(): void;
  /** Goes back to the state before the last `accept`. */
  reject(): void;
  /** Makes the next attempt more cautious where the state just decoded is not physical. */
  soothe?(): void;
  /** Ends that caution, once a step was accepted. */
  ease?(): void;
  /** Refreshes friction and heat coefficients. */
  refreshLosses(): void;
  mass(): number;
  burntMass(): number;
  energyContent(): number;
  /** Says where the state is not physical, for an error message. */
  complaint(): string;
  /** The current state per volume; missing where a scheme keeps none. */
  conserved?(): Conserved;
  /** The state of the cells as last decoded. */
  fields(): CellFields;
  /** Interpolated state at a position [m]: pressure, velocity, temperature, density into `out`. */
  probe(position: number, out: Float64Array): void;
  setCell(i: number, pressure: number, temperature: number, velocity?: number, burnt?: number): void;
}
