/**
 * A pipe, from the flange to the open air.
 */

import type { Section } from './section.ts';

/** Wall temperature of a duct: given at positions from its start, or found from a heat balance with the outside. */
export type WallTemperature =
  | {
      readonly by: 'given';
      readonly at: readonly { readonly position: number; readonly temperature: number }[];
    }
  | { readonly by: 'balance'; readonly emissivity: number; readonly outsideCoefficient: number };

/**
 * A bend of the centreline. What is kept is the length along the centreline: a bend takes radius times angle of it and
 * shortens or lengthens nothing.
 */
export interface Bend {
  /** Where it begins, along the centreline from the flange [m]. */
  readonly at: number;
  /** How far it turns [deg]. */
  readonly angleDeg: number;
  /** Radius of its centreline [m]. */
  readonly radius: number;
  /**
   * To which side it turns [deg]: seen along the flow 0 up, 90 right, 180 down. Up is the flange's, carried along the
   * centreline without twist.
   */
  readonly planeDeg: number;
  /** Straight pieces that it is mitred of; null: smooth. */
  readonly segments: number | null;
}

export interface Pipe {
  readonly name: string;
  /** From the flange on. */
  readonly sections: readonly Section[];
  /** In the order of the flow; none: straight. */
  readonly bends: readonly Bend[];
  /** Thickness of its sheet [m]; null: not stated. */
  readonly sheet: number | null;
  /**
   * A silencer's volume behind the stinger [m3], its outlet's diameter [m] and the discharge coefficient into that [-];
   * null: the stinger ends in the open.
   */
  readonly silencer: {
    readonly volume: number;
    readonly outletDiameter: number;
    readonly discharge: number;
  } | null;
  readonly wall: WallTemperature;
  readonly roughness: number;
  /** Factors on what widening cones and bends cost the stream [-]; 0 for none. */
  readonly coneLoss: number;
  readonly bendLoss: number;
  /** End correction of the open end, in radii [-]; 0 switches it off. */
  readonly endCorrection: number;
}
