/**
 * One end of a duct, as the boundaries see it: the state that the arriving characteristics bring to the end face, seen
 * in the outward direction, and the state and fluxes that the boundary answers with. All schemes fill and read the
 * same two arrays, so every boundary serves both ends of every scheme with one code.
 */

import type { GasModel } from '../gas/gas-model.ts';

/**
 * Slots of `DuctEnd.arrive`. Velocity is positive out of the duct. The last two follow from the others: lambda of the
 * arriving characteristic [m/s], and the pressure at which the arriving gas would come to rest on the face [Pa].
 */
export const ARRIVE = {
  density: 0,
  velocity: 1,
  pressure: 2,
  burnt: 3,
  gamma: 4,
  soundSpeed: 5,
  temperature: 6,
  lambda: 7,
  rest: 8,
} as const;
/**
 * Slots of `DuctEnd.answer`: face state, then flows out of the duct [kg/s, W, kg/s]. Velocity positive out of the duct. The
 * last two belong to the boundary while it answers: the sound speed on the face of gas that leaves [m/s], the stagnation
 * enthalpy of gas that enters [J/kg].
 */
export const ANSWER = {
  density: 0,
  velocity: 1,
  pressure: 2,
  burnt: 3,
  mass: 4,
  energy: 5,
  burntMass: 6,
  soundSpeed: 7,
  enthalpy: 8,
} as const;

/** What a boundary needs to know of a duct, whichever scheme marches it. */
export interface EndOwner {
  readonly name: string;
  readonly gas: GasModel;
}

export class DuctEnd {
  readonly owner: EndOwner;
  /** -1 at the left end, 1 at the right: outward velocity = side * u. */
  readonly side: -1 | 1;
  readonly area: number;
  readonly arrive: Float64Array;
  readonly answer: Float64Array;
  /** Effective area of the opening at the end over the duct's, where its link has one; set before it answers [-]. */
  opening = 1;

  constructor(owner: EndOwner, side: -1 | 1, area: number) {
    this.owner = owner;
    this.side = side;
    this.area = area;
    this.arrive = new Float64Array(9);
    this.answer = new Float64Array(9);
  }
}
